#include "tests/db/failing_disk.h"

#include <filesystem>
#include <fstream>
#include <iterator>
#include <utility>

#include "core/base/assert.h"

namespace rodway {
namespace {

namespace fs = std::filesystem;

// The C library's calls have no other way to find it.
constinit FailingDisk* mounted = nullptr;
constinit thread_local int unseen = 0;
constinit thread_local int idle = 0;

std::string content_of(const fs::path& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

} // namespace

UnseenCalls::UnseenCalls() {
    ++unseen;
}
UnseenCalls::~UnseenCalls() {
    --unseen;
}
bool UnseenCalls::now() {
    return unseen != 0;
}

IdleSyncs::IdleSyncs() {
    ++idle;
}
IdleSyncs::~IdleSyncs() {
    --idle;
}
bool IdleSyncs::now() {
    return idle != 0;
}

FailingDisk::FailingDisk(const std::string& folder, Neglect neglect)
    : root_(folder + '/'), neglect_(neglect) {
    RODWAY_ASSERT(mounted == nullptr);
    journal_.start.names[folder] = DiskContents::folder;
    for (const auto& entry : fs::recursive_directory_iterator(folder)) {
        const bool is_folder = entry.is_directory();
        const int file = is_folder ? DiskContents::folder : next_file();
        journal_.start.names[entry.path().string()] = file;
        if (!is_folder) journal_.start.bytes[file] = content_of(entry.path());
    }
    names_ = journal_.start.names;
    put_disk_beneath_sqlite();
    mounted = this;
}

FailingDisk::~FailingDisk() {
    RODWAY_ASSERT(descriptors.empty());
    mounted = nullptr;
    take_disk_from_beneath_sqlite();
}

void FailingDisk::strike(Mishap mishap, std::size_t at_call) {
    mishap_ = mishap;
    at_call_ = at_call;
}

void FailingDisk::mend() {
    mishap_ = Mishap::none;
}

FailingDisk* FailingDisk::of(std::string_view path) {
    constexpr std::string_view shared_memory = "-shm";
    if (mounted == nullptr || UnseenCalls::now()) return nullptr;
    if (path.substr(0, mounted->root_.size()) != mounted->root_ &&
        path != std::string_view(mounted->root_).substr(0, mounted->root_.size() - 1)) {
        return nullptr;
    }
    return path.ends_with(shared_memory) ? nullptr : mounted;
}

FailingDisk* FailingDisk::of_descriptor(int descriptor) {
    if (mounted == nullptr || UnseenCalls::now()) return nullptr;
    return mounted->descriptors.count(descriptor) == 0 ? nullptr : mounted;
}

FailingDisk::Verdict FailingDisk::verdict_on(DiskAct act) {
    const std::size_t number = journal_.calls.size();
    if (mishap_ == Mishap::none || number < at_call_) return Verdict::succeeds;
    if (mishap_ == Mishap::fails_once) {
        return number == at_call_ ? Verdict::io_error : Verdict::succeeds;
    }
    if (mishap_ == Mishap::fails_from_on) return Verdict::io_error;
    const bool takes_room =
        act == DiskAct::write || act == DiskAct::create || act == DiskAct::make_folder;
    return takes_room ? Verdict::no_room : Verdict::succeeds;
}

FailingDisk::Verdict FailingDisk::call(DiskCall call) {
    const Verdict verdict = verdict_on(call.act);
    call.failed = verdict != Verdict::succeeds;
    struck_ = struck_ || call.failed;
    if (call.failed) {
        call.bytes.resize(call.bytes.size() / 2);
    } else if (call.act == DiskAct::create || call.act == DiskAct::make_folder) {
        names_[call.path] = call.file;
    } else if (call.act == DiskAct::remove) {
        names_.erase(call.path);
    } else if (call.act == DiskAct::move) {
        names_.erase(call.path);
        names_[call.target] = call.file;
    }
    journal_.calls.push_back(std::move(call));
    return verdict;
}

bool FailingDisk::overlooks_sync(int file) const {
    return neglect_ == (file == DiskContents::folder ? Neglect::folder_syncs : Neglect::file_syncs);
}

bool FailingDisk::has(const std::string& path) const {
    return names_.count(path) != 0;
}

int FailingDisk::file_at(const std::string& path) const {
    const auto found = names_.find(path);
    RODWAY_ASSERT(found != names_.end()); // else something made it unseen
    return found->second;
}

void lay_out(const DiskContents& contents, const std::string& from, const std::string& to) {
    fs::remove_all(to);
    for (const auto& [path, file] : contents.names) {
        const std::string place = to + path.substr(from.size());
        if (file == DiskContents::folder) {
            fs::create_directory(place);
            continue;
        }
        std::ofstream out(place, std::ios::binary);
        if (const auto found = contents.bytes.find(file); found != contents.bytes.end()) {
            out << found->second;
        }
    }
}

} // namespace rodway

#include "tests/db/disk_journal.h"

#include <algorithm>
#include <array>
#include <random>
#include <string_view>
#include <utility>

namespace rodway {
namespace {

constexpr std::size_t sector = 512;

std::string folder_of(const std::string& path) {
    return path.substr(0, path.find_last_of('/'));
}

/// Decides what becomes of all that wasn't synced.
class Luck {
  public:
    enum class Fate { lost, kept, torn };

    Luck(unsigned seed, std::size_t finished)
        : mode_(seed % 4), random_(seed * 2654435761U + static_cast<unsigned>(finished)) {}

    /// Before the first question: the calls in question are numbered from `first` to `last`.
    void between(std::size_t first, std::size_t last) {
        cut_ = std::uniform_int_distribution<std::size_t>(first, last + 1)(random_);
    }

    Fate fate(std::size_t call) {
        if (mode_ == 0) return Fate::lost;
        if (mode_ == 1) return Fate::kept;
        if (mode_ == 2) {
            if (call + 1 == cut_) return below(2) == 0 ? Fate::kept : Fate::torn;
            return call < cut_ ? Fate::kept : Fate::lost;
        }
        constexpr std::array<Fate, 3> fates{Fate::lost, Fate::kept, Fate::torn};
        return fates[below(3)];
    }

    std::size_t below(std::size_t n) {
        return std::uniform_int_distribution<std::size_t>(0, n - 1)(random_);
    }

  private:
    unsigned mode_;
    std::mt19937 random_;
    std::size_t cut_ = 0;
};

void write_piece(std::string& content, std::size_t at, std::string_view piece) {
    if (content.size() < at + piece.size()) content.resize(at + piece.size(), '\0');
    content.replace(at, piece.size(), piece);
}

void carry_out(const DiskCall& call, std::string& content) {
    const auto at = static_cast<std::size_t>(call.offset);
    if (call.act == DiskAct::truncate) {
        content.resize(at, '\0');
    } else if (!call.bytes.empty()) {
        write_piece(content, at, call.bytes);
    }
}

/// Some sectors of the write come through, some don't, and one may hold neither old nor new.
void tear(const DiskCall& call, std::string& content, Luck& luck) {
    const auto begin = static_cast<std::size_t>(call.offset);
    const std::size_t end = begin + call.bytes.size();
    const std::size_t sectors = end / sector - begin / sector + 1;
    const std::size_t scrambled = luck.below(3 * sectors);
    std::size_t number = 0;
    for (std::size_t at = begin; at < end; ++number) {
        const std::size_t next = std::min(end, (at / sector + 1) * sector);
        std::string piece = call.bytes.substr(at - begin, next - at);
        if (number == scrambled) {
            for (char& byte : piece) byte = static_cast<char>(luck.below(256));
            write_piece(content, at, piece);
        } else if (luck.below(2) == 0) {
            write_piece(content, at, piece);
        }
        at = next;
    }
}

/// The disk while the calls come in: what is safe, and what waits.
class Replay {
  public:
    explicit Replay(const DiskContents& start) : safe_(start) {}

    void finish(std::size_t number, const DiskCall& call) {
        begin(number, call);
        if (call.act == DiskAct::sync) settle_file(call);
        if (call.failed) return;
        if (call.act == DiskAct::sync_folder) settle_names(call.path);
        if (call.folder_too) settle_names(folder_of(call.path));
    }

    /// As far as a call can have come when the power goes.
    void begin(std::size_t number, const DiskCall& call) {
        switch (call.act) {
            case DiskAct::write:
                contents_[call.file].push_back({number, &call});
                return;
            case DiskAct::truncate:
                if (!call.failed) contents_[call.file].push_back({number, &call});
                return;
            case DiskAct::create:
            case DiskAct::make_folder:
                note(number, call, {{call.path, call.file}});
                return;
            case DiskAct::remove:
                note(number, call, {{call.path, gone}});
                return;
            case DiskAct::move:
                if (folder_of(call.path) == folder_of(call.target)) {
                    note(number, call, {{call.target, call.file}, {call.path, gone}});
                } else {
                    note(number, call, {{call.target, call.file}});
                    note(number, call, {{call.path, gone}});
                }
                return;
            case DiskAct::sync:
            case DiskAct::sync_folder:
                return;
        }
    }

    DiskContents cut(Luck luck) {
        luck.between(first_waiting(), last_waiting());
        for (auto& [file, waiting] : contents_) {
            std::string& content = safe_.bytes[file];
            for (const Content& one : waiting) {
                const Luck::Fate fate =
                    one.state == State::safe ? Luck::Fate::kept : luck.fate(one.number);
                const bool whole = fate == Luck::Fate::kept;
                if (whole) carry_out(*one.call, content);
                if (fate == Luck::Fate::torn && one.call->act == DiskAct::write) {
                    tear(*one.call, content, luck);
                }
            }
        }
        for (const Names& one : names_) {
            if (luck.fate(one.number) == Luck::Fate::kept) settle(one);
        }
        drop_unreachable();
        return std::move(safe_);
    }

  private:
    enum class State { waiting, in_doubt, safe };
    struct Content {
        std::size_t number;
        const DiskCall* call;
        State state = State::waiting;
    };
    static constexpr int gone = -1;
    /// Changes of names in one folder that come to the disk together: path and file.
    struct Names {
        std::size_t number;
        std::string folder;
        std::vector<std::pair<std::string, int>> changes;
    };

    void note(std::size_t number, const DiskCall& call,
              std::vector<std::pair<std::string, int>> changes) {
        if (call.failed) return;
        names_.push_back({number, folder_of(changes.front().first), std::move(changes)});
    }

    void settle_file(const DiskCall& sync) {
        std::vector<Content>& waiting = contents_[sync.file];
        for (Content& one : waiting) {
            if (one.state != State::waiting) continue;
            one.state = sync.failed ? State::in_doubt : State::safe;
        }
        // What is safe but came after something in doubt must stay behind it.
        const auto first_unsafe =
            std::find_if(waiting.begin(), waiting.end(),
                         [](const Content& one) { return one.state != State::safe; });
        std::string& content = safe_.bytes[sync.file];
        for (auto one = waiting.begin(); one != first_unsafe; ++one) carry_out(*one->call, content);
        waiting.erase(waiting.begin(), first_unsafe);
    }

    void settle_names(const std::string& folder) {
        std::vector<Names> rest;
        for (Names& one : names_) {
            if (one.folder == folder) {
                settle(one);
            } else {
                rest.push_back(std::move(one));
            }
        }
        names_ = std::move(rest);
    }

    void settle(const Names& names) {
        for (const auto& [path, file] : names.changes) {
            if (file == gone) {
                safe_.names.erase(path);
            } else {
                safe_.names[path] = file;
            }
        }
    }

    void drop_unreachable() {
        // In order of their names folders come before what is in them.
        for (auto name = safe_.names.begin(); name != safe_.names.end();) {
            const std::string folder = folder_of(name->first);
            const bool reachable = name == safe_.names.begin() || safe_.names.count(folder) != 0;
            name = reachable ? std::next(name) : safe_.names.erase(name);
        }
    }

    [[nodiscard]] std::size_t first_waiting() const {
        std::size_t first = names_.empty() ? last_waiting() : names_.front().number;
        for (const auto& [file, waiting] : contents_) {
            if (!waiting.empty()) first = std::min(first, waiting.front().number);
        }
        return first;
    }
    [[nodiscard]] std::size_t last_waiting() const {
        std::size_t last = names_.empty() ? 0 : names_.back().number;
        for (const auto& [file, waiting] : contents_) {
            if (!waiting.empty()) last = std::max(last, waiting.back().number);
        }
        return last;
    }

    DiskContents safe_;
    std::map<int, std::vector<Content>> contents_;
    std::vector<Names> names_;
};

} // namespace

DiskContents DiskJournal::after_power_cut(std::size_t finished, unsigned seed) const {
    Replay replay(start);
    for (std::size_t i = 0; i < finished; ++i) replay.finish(i, calls[i]);
    if (finished < calls.size()) replay.begin(finished, calls[finished]);
    return replay.cut(Luck(seed, finished));
}

} // namespace rodway

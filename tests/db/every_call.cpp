#include "tests/db/every_call.h"

#include <QCryptographicHash>
#include <QFileInfo>
#include <QTemporaryDir>
#include <QtGlobal>
#include <array>
#include <filesystem>
#include <set>
#include <sstream>
#include <utility>

#include "tests/db/shop_test.h"

namespace rodway {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_losses = 5;

class Trial {
  public:
    Trial(const DiskScenario& scenario, const DiskTrials& trials)
        : scenario_(scenario),
          trials_(trials),
          place_(QFileInfo(folder_.path()).canonicalFilePath().toStdString()) {
        fs::create_directory(prepared_);
        scenario_.prepare(prepared_);
    }

    DiskVerdict run() {
        undisturbed();
        if (!trials_.with_errors) return std::move(verdict_);
        const std::size_t stride = trials_.stride;
        // The seeds are multiples of four.
        const std::size_t first = trials_.seed / 4 % stride;
        for (std::size_t at = first; at < verdict_.calls && !full_of_losses(); at += stride) {
            disturbed(Mishap::fails_once, at);
            // They differ little: a run that must be short takes them in turn.
            const bool odd = (at / stride) % 2 == 1;
            if (trials_.all_mishaps || !odd) disturbed(Mishap::fails_from_on, at);
            if (trials_.all_mishaps || odd) disturbed(Mishap::full, at);
        }
        return std::move(verdict_);
    }

  private:
    [[nodiscard]] bool full_of_losses() const { return verdict_.losses.size() >= most_losses; }

    void lose(const std::string& where, const std::string& what) {
        if (!full_of_losses()) verdict_.losses.push_back(where + ": " + what);
    }

    void fresh_disk() {
        fs::remove_all(disk_);
        fs::copy(prepared_, disk_, fs::copy_options::recursive);
    }

    /// One run gives every power cut: the journal knows what the disk held at each call.
    void undisturbed() {
        fresh_disk();
        DiskJournal journal;
        std::vector<std::size_t> answered_at;
        {
            FailingDisk disk(disk_, scenario_.neglect);
            std::vector<DiskStep> steps = scenario_.steps(disk_);
            for (const DiskStep& step : steps) {
                take(step());
                answered_at.push_back(disk.calls());
            }
            steps.clear();
            journal = disk.journal();
        }
        verdict_.calls = journal.calls.size();
        std::size_t answered = 0;
        for (std::size_t finished = 0; finished <= journal.calls.size(); ++finished) {
            while (answered < answered_at.size() && answered_at[answered] <= finished) ++answered;
            for (unsigned cut = 0; cut < trials_.cuts && !full_of_losses(); ++cut) {
                judge(journal, finished, trials_.seed + cut, answered, "undisturbed");
            }
        }
    }

    void disturbed(Mishap mishap, std::size_t at) {
        ++verdict_.runs;
        fresh_disk();
        constexpr std::array<const char*, 4> names{"", "fails once", "fails from on", "full"};
        const std::string name = std::string(names.at(static_cast<std::size_t>(mishap))) +
                                 " at call " + std::to_string(at);
        const unsigned seed = trials_.seed + static_cast<unsigned>(at);
        std::size_t answered = 0;
        FailingDisk disk(disk_, scenario_.neglect);
        disk.strike(mishap, at);
        std::vector<DiskStep> steps = scenario_.steps(disk_);
        bool looked = false;
        for (const DiskStep& step : steps) {
            Result<Done> answer = step();
            if (disk.has_struck() && !looked) {
                looked = true;
                judge(disk.journal(), disk.calls(), seed, answered + (answer ? 1 : 0),
                      name + ", at once");
            }
            if (!answer) {
                if (!disk.has_struck()) lose(name, "an error before anything failed");
                disk.mend();
                answer = step();
            }
            if (!answer) {
                lose(name, "doesn't go on: " + describe(answer.error()));
                break;
            }
            ++answered;
        }
        judge(disk.journal(), disk.calls(), trials_.seed / 4 * 4, answered, name + ", in the end");
        steps.clear();
        if (!trials_.all_mishaps) return;
        judge(disk.journal(), disk.calls(), seed + 1, answered, name + ", closed");
    }

    void judge(const DiskJournal& journal, std::size_t finished, unsigned seed,
               std::size_t answered, const std::string& where) {
        const DiskContents image = journal.after_power_cut(finished, seed);
        if (!judged_.insert(print_of(image, answered)).second) return;
        ++verdict_.images;
        lay_out(image, disk_, image_);
        const std::string wrong = scenario_.wrong(image_, answered);
        if (wrong.empty()) return;
        std::ostringstream place;
        place << where << ", power cut after " << finished << " calls and " << answered
              << " answers, seed " << seed;
        lose(place.str(), wrong);
    }

    /// The same disk needn't be judged twice.
    static QByteArray print_of(const DiskContents& image, std::size_t answered) {
        QCryptographicHash hash(QCryptographicHash::Sha1);
        const auto add = [&hash](const std::string& text) {
            hash.addData(QByteArray::number(static_cast<qulonglong>(text.size())));
            hash.addData({text.data(), static_cast<qsizetype>(text.size())});
        };
        hash.addData(QByteArray::number(static_cast<qulonglong>(answered)));
        for (const auto& [path, file] : image.names) {
            add(path);
            const auto found = image.bytes.find(file);
            add(found == image.bytes.end() ? std::string() : found->second);
        }
        return hash.result();
    }

    const DiskScenario& scenario_;
    const DiskTrials& trials_;
    IdleSyncs idle_; // the disk's journal has its own
    QTemporaryDir folder_;
    std::string place_;
    std::string prepared_ = place_ + "/prepared";
    std::string disk_ = place_ + "/disk";
    std::string image_ = place_ + "/image";
    std::set<QByteArray> judged_;
    DiskVerdict verdict_;
};

} // namespace

DiskVerdict for_every_call(const DiskScenario& scenario, const DiskTrials& trials) {
    return Trial(scenario, trials).run();
}

bool long_run() {
    return qEnvironmentVariableIntValue("RODWAY_LONG") != 0;
}

} // namespace rodway

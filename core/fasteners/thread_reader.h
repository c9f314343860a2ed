#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/fasteners/thread.h"

namespace rodway {

/// Walks over a fastener as typed. Each `take_` moves past what it recognises, or stays where it
/// was.
class ThreadReader {
  public:
    explicit ThreadReader(std::string_view text);

    /// The diameter: "7/16", ".4375", "#10", "no. 10", "10" before a hyphen, "M10".
    bool take_size();
    /// The pitch behind it, by number or by "UNC", "coarse" …; also both, if they agree.
    /// False: what stands there contradicts itself or isn't in the table; see `refusal`.
    bool take_pitch();
    /// Everything behind an "x"; empty if there is none.
    [[nodiscard]] std::optional<std::string> take_length();
    [[nodiscard]] bool at_end();

    [[nodiscard]] ThreadSystem system() const { return system_; }
    [[nodiscard]] const std::string& size() const { return size_; }
    [[nodiscard]] const std::optional<Thread>& thread() const { return thread_; }

    [[nodiscard]] Error no_thread() const; ///< can't be read at all
    [[nodiscard]] Error refusal() const;   ///< can be read, but is not in the table

  private:
    void skip_space();
    bool take(std::string_view token);
    bool take_word(std::string_view word);
    [[nodiscard]] std::string digits_here() const;
    std::optional<double> take_decimal();
    bool take_metric_size();
    bool take_numbered_size();
    bool take_inch_size();
    std::optional<double> take_metric_pitch();
    std::optional<double> take_threads_per_inch();
    std::optional<ThreadSeries> take_series();

    std::string original_;
    std::string text_;
    std::size_t at_ = 0;
    ThreadSystem system_ = ThreadSystem::inch;
    std::string size_;
    double diameter_mm_ = 0.0; ///< as written; also of a size that isn't in the table
    std::optional<Thread> thread_;
};

} // namespace rodway

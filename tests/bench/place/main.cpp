// How the Bench's work in the window grows: opened and scrolled with 100 builds in hand and with
// 10,000, by turns in one run. What counts is how long the event loop stands still.
#include <QApplication>
#include <QElapsedTimer>
#include <QKeyEvent>
#include <QLineEdit>
#include <QScrollBar>
#include <QTemporaryDir>
#include <QTimer>
#include <algorithm>
#include <cstdio>
#include <memory>
#include <stdexcept>
#include <string>
#include <vector>

#include "app/bench/bench_page.h"
#include "app/bench/today_panel.h"
#include "tests/bench/shop/grown_shop.h"

namespace rodway {
namespace {

constexpr int turns = 5;
constexpr int scroll_stops = 60;

/// Beats as often as the event loop comes round, and knows the longest pause.
class Heart {
  public:
    Heart() {
        QObject::connect(&beat_, &QTimer::timeout, [this] {
            longest_ms_ = std::max(longest_ms_, static_cast<double>(since_.nsecsElapsed()) / 1e6);
            since_.restart();
            ++beats_;
        });
    }
    void begin() {
        longest_ms_ = 0.0;
        since_.start();
        beat_.start(0);
    }
    [[nodiscard]] double longest_ms() const { return longest_ms_; }
    /// Until it has beaten, with everything that was to be painted painted.
    void wait_for_beat() {
        const int before = beats_;
        while (beats_ < before + 2) QCoreApplication::processEvents();
    }

  private:
    QTimer beat_;
    QElapsedTimer since_;
    double longest_ms_ = 0.0;
    int beats_ = 0;
};

/// Milliseconds.
struct Figures {
    double rows = 0.0;         ///< from the shop being taken until its first rows are painted
    double known = 0.0;        ///< until what holds those up is known
    double open_pause = 0.0;   ///< longest pause of the event loop meanwhile
    double scroll = 0.0;       ///< a jump to other rows until they are painted: median
    double scroll_pause = 0.0; ///< longest pause while scrolling
    double words = 0.0;        ///< words typed until the rows that have them are painted
    double change = 0.0;       ///< the rows read anew after a change
};

double ms_since(const QElapsedTimer& timer) {
    return static_cast<double>(timer.nsecsElapsed()) / 1e6;
}

void open(BenchPage& page, ShopSession& session, Heart& heart, Figures& figures) {
    QElapsedTimer since;
    heart.begin();
    since.start();
    page.take(&session, 0);
    heart.wait_for_beat();
    figures.rows = ms_since(since);
    while (page.model().standing(page.table()->rows_seen().second) == nullptr) {
        QCoreApplication::processEvents();
    }
    figures.known = ms_since(since);
    figures.open_pause = heart.longest_ms();
}

void scroll(BenchPage& page, Heart& heart, Figures& figures) {
    QScrollBar& bar = *page.table()->verticalScrollBar();
    std::vector<double> each;
    heart.begin();
    for (int stop = 1; stop <= scroll_stops; ++stop) {
        QElapsedTimer since;
        since.start();
        bar.setValue(static_cast<int>(std::int64_t{bar.maximum()} * stop / scroll_stops));
        heart.wait_for_beat();
        each.push_back(ms_since(since));
    }
    figures.scroll_pause = heart.longest_ms();
    std::nth_element(each.begin(), each.begin() + scroll_stops / 2, each.end());
    figures.scroll = each[scroll_stops / 2];
}

Figures measure(const std::string& path) {
    auto opened = ShopFile::open(path);
    if (!opened) throw std::runtime_error("can't open " + path);
    ShopSession session(std::move(opened).value(), "MH");
    BenchPage page;
    Heart heart;
    page.resize(1170, 760);
    page.show();
    heart.begin();
    heart.wait_for_beat();
    Figures figures;
    open(page, session, heart, figures);
    scroll(page, heart, figures);
    QElapsedTimer since;
    since.start();
    page.refresh();
    heart.wait_for_beat();
    figures.change = ms_since(since);
    auto* words = page.findChild<QLineEdit*>("bench_text");
    since.start();
    words->setText("Build 77");
    QKeyEvent enter(QEvent::KeyPress, Qt::Key_Return, Qt::NoModifier);
    QCoreApplication::sendEvent(words, &enter); // without the pause for further letters
    heart.wait_for_beat();
    figures.words = ms_since(since);
    if (page.model().total() == 0) throw std::runtime_error("no rows have the words");
    page.take(nullptr, 0);
    return figures;
}

void keep_least(Figures& least, const Figures& now, bool first) {
    const auto keep = [&](double Figures::*figure) {
        least.*figure = first ? now.*figure : std::min(least.*figure, now.*figure);
    };
    for (auto figure : {&Figures::rows, &Figures::known, &Figures::open_pause, &Figures::scroll,
                        &Figures::scroll_pause, &Figures::words, &Figures::change}) {
        keep(figure);
    }
}

void print(const char* what, double small, double large) {
    std::printf("%-44s %8.1f ms %8.1f ms   ratio %.2f\n", what, small, large, large / small);
}

int run(int builds) {
    const QTemporaryDir folder;
    const std::string small = folder.filePath("small.rodway").toStdString();
    const std::string large = folder.filePath("large.rodway").toStdString();
    bench::make_grown_shop(small, {100, 100, 20, 2});
    bench::make_grown_shop(large, {builds, builds, 20, 2});
    std::printf("100 builds in hand beside %d, least of %d turns\n", builds, turns);
    Figures of_small;
    Figures of_large;
    for (int turn = 0; turn < turns; ++turn) {
        keep_least(of_small, measure(small), turn == 0);
        keep_least(of_large, measure(large), turn == 0);
    }
    print("opened: rows painted", of_small.rows, of_large.rows);
    print("opened: what holds them up is known", of_small.known, of_large.known);
    print("opened: longest pause of the event loop", of_small.open_pause, of_large.open_pause);
    print("scrolled: other rows painted (median)", of_small.scroll, of_large.scroll);
    print("scrolled: longest pause of the event loop", of_small.scroll_pause,
          of_large.scroll_pause);
    print("read anew after a change", of_small.change, of_large.change);
    print("words typed: their rows painted", of_small.words, of_large.words);
    return 0;
}

} // namespace
} // namespace rodway

int main(int argc, char** argv) {
    if (!qEnvironmentVariableIsSet("QT_QPA_PLATFORM")) {
        qputenv("QT_QPA_PLATFORM", "offscreen");
    }
    const QApplication application(argc, argv);
    const int builds = argc > 1 ? QString(argv[1]).toInt() : 10'000;
    if (argc > 2 || builds < 100) {
        std::fprintf(stderr, "usage: rodway_place_bench [BUILDS, at least 100]\n");
        return 2;
    }
    try {
        return rodway::run(builds);
    } catch (const std::exception& failure) {
        std::fprintf(stderr, "%s\n", failure.what());
        return 1;
    }
}

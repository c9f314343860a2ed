// How long one picture of the demo V8 takes, read back and ready to be shown: while crank and
// camera move, once they stand still, with and without glass, with what the window paints over it,
// and, to compare, with every mesh made anew for each frame. All by turns in one run, so that a
// loaded machine slows them alike; the graphics' name stands above, since nothing decides more.
#include <QGuiApplication>
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <functional>
#include <string>
#include <vector>

#include "render/annotation.h"
#include "render/look.h"
#include "tests/bench/bench_engine.h"

namespace rodway {
namespace {

struct Way {
    const char* name;
    std::function<Frame(int)> frame;  ///< of a step of the crank
    bool window = false;              ///< with lens, dimension line, signs
    std::vector<double> ms = {};      ///< by the wall's clock
    std::vector<double> work_ms = {}; ///< by the processor's, all threads together
};

double ms_since(std::chrono::steady_clock::time_point start) {
    return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start)
        .count();
}

ClosestSpot some_spot(const Frame& frame) {
    const ValvePosition& valve = *frame.show.selected;
    const Vec3 at = frame.scene->rod_E(valve, frame.crank)->at(0.5);
    return {valve, QStringLiteral("0.012 in"), at, at + Vec3(0.0, 1.0, 0.0)};
}

/// One frame as `way` has it; whatever it makes is let go after the clock has stopped.
void draw_once(Renderer& renderer, Way& way, int step) {
    const std::clock_t work = std::clock();
    const auto start = std::chrono::steady_clock::now();
    const Frame frame = way.frame(step);
    Result<QImage> picture = renderer.draw(frame);
    if (!picture) {
        std::fputs("no picture could be drawn\n", stderr);
        std::exit(7);
    }
    if (way.window) {
        QImage shown = *picture;
        const ClosestSpot spot = some_spot(frame);
        const Frame lens = lens_frame(frame, spot, 260);
        const Result<QImage> magnified = renderer.draw(lens);
        QPainter painter(&shown);
        paint_states(painter, frame, 1.0);
        paint_closest(painter, frame, spot, 1.0);
        if (magnified) {
            paint_lens(painter, QRectF(12, 12, 260, 260), *magnified, lens, spot);
        }
    }
    if (step >= 0) { // the first ones compile shaders and make framebuffers
        way.ms.push_back(ms_since(start));
        way.work_ms.push_back(1e3 * static_cast<double>(std::clock() - work) / CLOCKS_PER_SEC);
    }
}

void print(Way& way) {
    std::sort(way.ms.begin(), way.ms.end());
    std::sort(way.work_ms.begin(), way.work_ms.end());
    std::printf("  %-52s %7.1f %7.1f %10.1f %7.1f\n", way.name, way.ms[way.ms.size() / 2],
                way.ms.back(), way.work_ms[way.work_ms.size() / 2], way.work_ms.back());
}

int measure(int frames) {
    const auto made = Renderer::create();
    if (!made) {
        std::fputs("This machine gives no OpenGL 3.3.\n", stderr);
        return 7;
    }
    Renderer& renderer = **made;
    const Engine& engine = bench::demo_v8();
    const auto scene = Scene::build(engine);
    const ValvePosition valve{3, ValveKind::intake, 1};
    Frame base;
    base.scene = scene;
    base.palette = palette_for(Theme::light);
    base.size = {1280, 800};
    base.smooth = false;
    base.show.selected = valve;
    base.show.others = Others::faded;
    base.camera = looked_at(*scene, Look::corner, {}, {}, base.size);
    const auto turned = [&](const std::function<void(Frame&)>& change) {
        return [=](int step) {
            Frame frame = base;
            change(frame);
            frame.crank = CrankAngle::deg(4.0 * step);
            frame.camera = orbited(frame.camera, 1.5 * step, 0.0);
            return frame;
        };
    };
    const auto without_glass = [](Frame& frame) { frame.show.castings = false; };
    std::vector<Way> ways;
    ways.push_back({"moving", turned([](Frame&) {})});
    ways.push_back({"moving, without glass", turned(without_glass)});
    ways.push_back(
        {"moving, all trains as strongly, verdicts on the rods", turned([&](Frame& frame) {
             frame.show.others = Others::shown;
             for (const Train& train : engine.trains) {
                 frame.show.states[train.position] = CheckState::too_close;
             }
         })});
    ways.push_back({"moving, section", turned([&](Frame& frame) {
                        frame.show.section =
                            section_of(*frame.scene, Cut::across_crank, valve, frame.camera, 0.0);
                    })});
    ways.push_back(
        {"moving, as the window shows it: lens and labels", turned([](Frame&) {}), true});
    ways.push_back({"still (4x multisampling)", turned([](Frame& frame) { frame.smooth = true; })});
    ways.push_back({"still, without glass", turned([&](Frame& frame) {
                        frame.smooth = true;
                        without_glass(frame);
                    })});
    ways.push_back({"moving, every mesh made anew each frame",
                    turned([&](Frame& frame) { frame.scene = Scene::build(engine); })});
    for (int step = -2; step < frames; ++step) {
        for (Way& way : ways) {
            draw_once(renderer, way, step);
        }
    }
    std::printf("%s; 1280x800; %zu triangles in %zu parts; %d frames each\n",
                renderer.graphics_name().c_str(), scene->triangle_count(), scene->parts().size(),
                frames);
    std::printf("  %-52s %7s %7s %10s %7s\n", "ms for one frame, read back into a picture",
                "median", "worst", "processor", "worst");
    for (Way& way : ways) {
        print(way);
    }
    return 0;
}

} // namespace
} // namespace rodway

int main(int argc, char** argv) {
    // With a display the graphics are the display's; without one they are whatever EGL gives.
    if (qEnvironmentVariableIsEmpty("DISPLAY") && qEnvironmentVariableIsEmpty("WAYLAND_DISPLAY")) {
        qputenv("QT_QPA_PLATFORM", "offscreen");
    }
    const QGuiApplication application(argc, argv);
    const int frames = argc > 1 ? std::atoi(argv[1]) : 60;
    if (frames < 1) {
        std::fputs("usage: rodway_frame_bench [frames]\n", stderr);
        return 2;
    }
    return rodway::measure(frames);
}

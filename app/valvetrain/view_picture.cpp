#include "app/valvetrain/view_picture.h"

#include <QCoreApplication>

#include "app/words/clearance_words.h"
#include "app/words/lengths.h"

namespace rodway {
namespace {

struct ViewPictures {
    Q_DECLARE_TR_FUNCTIONS(ViewPictures)
};

} // namespace

std::map<ValvePosition, CheckState> states_of(const std::vector<ValveClearance>& lines) {
    std::map<ValvePosition, CheckState> states;
    for (const ValveClearance& line : lines) {
        states[line.position] = check_state(line.verdict);
    }
    return states;
}

std::optional<ClosestSpot> closest_spot_at(const Engine& engine, const ValvePosition& valve,
                                           CrankAngle crank) {
    const Train* train = engine.train(valve);
    const auto closed = train != nullptr ? train_surroundings(engine, *train)
                                         : Result<ClosedSurroundings>(ClosedSurroundings{});
    if (!closed || !closed->surroundings) {
        return std::nullopt;
    }
    const auto found = least_clearance_at(*closed->surroundings, engine.lobe_lift_mm(valve, crank));
    if (!found) {
        return std::nullopt;
    }
    const BankFrame& frame = engine.layout.banks[train->bank].frame;
    ClosestSpot spot;
    spot.valve = valve;
    spot.p_rod_E = frame.to_block(found->p_rod_K);
    spot.p_wall_E = frame.to_block(found->p_wall_K);
    spot.label = ViewPictures::tr("%1: %2\n%3\nat %4")
                     .arg(words::valve(valve), words::inches(found->clearance_mm),
                          words::place(*found, engine), words::crank_degrees(crank.in_deg()));
    return spot;
}

QString front_words() {
    return ViewPictures::tr("Front");
}

PictureRequest view_picture(std::shared_ptr<const Scene> scene,
                            const std::vector<ValveClearance>& lines, const ValveClearance* line,
                            const ViewChoice& choice, PictureSize size, const Palette& palette) {
    PictureRequest request;
    request.lens = choice.lens;
    request.front_label = front_words();
    Frame& frame = request.frame;
    frame.scene = std::move(scene);
    frame.palette = palette;
    frame.size = size;
    SceneShow& show = frame.show;
    show.others = choice.others;
    show.rockers = choice.rockers;
    show.rod_sweep = choice.sweep;
    show.pistons = choice.pistons;
    if (choice.states) {
        show.states = states_of(lines);
    }
    const Engine& engine = frame.scene->engine();
    if (line != nullptr) {
        show.selected = line->position;
        frame.crank = angle_of_minimum(engine, *line);
        if (choice.closest && !choice.crank && line->found.minimum) {
            request.closest = closest_spot(engine, *line);
        } else if (choice.closest && choice.crank) {
            request.closest = closest_spot_at(engine, line->position, *choice.crank);
        }
    }
    frame.crank = choice.crank.value_or(frame.crank);
    const auto valve =
        choice.whole_engine && choice.look != Look::along_rod ? std::nullopt : show.selected;
    frame.camera = looked_at(*frame.scene, choice.look, valve, frame.crank, size);
    if ((choice.yaw_deg || choice.pitch_deg) && choice.look != Look::along_rod) {
        frame.camera.yaw_deg = choice.yaw_deg.value_or(frame.camera.yaw_deg);
        frame.camera.pitch_deg = choice.pitch_deg.value_or(frame.camera.pitch_deg);
        frame.camera = framed(frame.camera, frame.scene->outline_E(valve), size);
    }
    if (show.selected) {
        show.section =
            section_of(*frame.scene, choice.cut, *show.selected, frame.camera, choice.cut_by_mm);
    }
    return request;
}

} // namespace rodway

#include "tests/bench/bench_engine.h"

#include <fstream>
#include <iterator>
#include <string>

#include "core/files/set_up_file.h"

namespace rodway::bench {

const SetUpFields& demo_v8_fields() {
    static const SetUpFields fields = [] {
        std::ifstream file(std::string(RODWAY_RESOURCES) + "/demo/v8-port-tubes.json",
                           std::ios::binary);
        const std::string bytes{std::istreambuf_iterator<char>(file),
                                std::istreambuf_iterator<char>()};
        return *read_set_up_file(bytes);
    }();
    return fields;
}

const Engine& demo_v8() {
    static const Engine engine = *make_engine(demo_v8_fields());
    return engine;
}

Engine with_trains(std::size_t count) {
    Engine engine = demo_v8();
    const std::vector<Train> trains = engine.trains;
    engine.trains.clear();
    for (std::size_t at = 0; at < count; ++at) {
        engine.trains.push_back(trains[at % trains.size()]);
    }
    return engine;
}

Engine with_stated_doubt() {
    Engine engine = demo_v8();
    engine.doubt.lash_float = DoubtSource::measured;
    engine.doubt.seat_off_axis = StatedSize{0.1, DoubtSource::assumed};
    engine.doubt.rod_runout = StatedSize{0.05, DoubtSource::measured};
    engine.doubt.lifter_bore_slop = StatedSize{0.04, DoubtSource::measured};
    for (const ParameterKind kind : parameter_kinds()) {
        engine.doubt.inputs[kind] = {is_angle(kind) ? 0.001 : 0.05, DoubtSource::measured};
    }
    for (Train& train : engine.trains) {
        train.rocker.end_float_mm = 0.2;
    }
    return engine;
}

} // namespace rodway::bench

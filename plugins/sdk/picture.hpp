// What a chart holds before it is poured into the sink: traces and labels as plain values. Optional
// as describe.hpp is, and no part of the contract.
#pragma once

#include "describe.hpp"

#include <string>
#include <vector>

namespace fettle::plugin {

struct Trace {
    std::string name;   // "": not in the legend
    std::uint32_t look; // FETTLE_LINE, FETTLE_DASHED, FETTLE_DOTS, FETTLE_BODY
    std::vector<fettle_point> points;
};

struct PictureLabel {
    fettle_point at;
    std::string text;
};

struct Picture {
    const char* chart; // id
    std::vector<Trace> traces;
    std::vector<PictureLabel> labels;
};

inline void give_picture(const fettle_sink* sink, const Picture& picture) {
    for (const Trace& trace : picture.traces)
        give_series(sink, picture.chart, trace.name, trace.look, trace.points);
    for (const PictureLabel& label : picture.labels)
        give_label(sink, picture.chart, label.at, label.text);
}

} // namespace fettle::plugin

#include "thread/catalogue.h"

#include "screw_threads/series.h"
#include "screw_threads/words.h"

#include <cmath>

namespace fettle::thread {
namespace {

using plugin::line;
using screw::Form;
using screw::kInch;
using screw::plain_number;
using screw::Thread;

struct SeriesWords {
    const char* series;
    const char* met;
    const char* words;
};

constexpr SeriesWords kSeriesWords[] = {
    {"UNC", "American", "Unified coarse, 60°; National Coarse (NC) before 1949"},
    {"UNF", "American", "Unified fine, 60°; SAE regular and National Fine (NF) before 1949"},
    {"UN", "American", "Unified constant pitch, 60°; studs and flanges"},
    {"UNEF", "American", "Unified extra fine, 60°; SAE extra fine before"},
    {"UNS", "American", "Unified special, 60°; 1-14 was SAE regular and is met on old axles"},
    {"BSW", "British", "Whitworth, 55°; castings and studs into aluminium"},
    {"BSF", "British", "Whitworth fine, 55°; British vehicles to the 1950s"},
    {"BSC", "cycle", "British cycle (also CEI), 60°; motorcycles, spindles, brake gear"},
    {"BSB", "pipes", "brass thread, 55°, 26 to the inch in every size; tube and lamp fittings"},
    {"ISO coarse", "metric", "ISO metric coarse, 60°"},
    {"ISO fine", "metric", "ISO metric fine, 60°"},
    {"BA", "instruments", "British Association, 47.5°; instruments, magnetos, wiring"},
    {"G (BSP)", "pipes", "British pipe, parallel, 55°; the size is that of an old pipe's bore"},
    {"NPT", "pipes", "American taper pipe, 60°, 1 in 16; American fittings"}};

const char* met(const char* series) {
    for (const SeriesWords& row : kSeriesWords) {
        if (std::string_view(row.series) == series) return row.met;
    }
    return "";
}

void add(std::vector<Known>& all, Thread thread, const char* series) {
    all.push_back({std::move(thread), series, met(series), true, 0});
}

void add_inch(std::vector<Known>& all) {
    for (const screw::Series& series : screw::inch_series()) {
        for (const screw::InchSize& size : screw::inch_sizes()) {
            const double tpi = size.*series.tpi;
            if (tpi == 0) continue;
            add(all,
                {line(size.size, "-", plain_number(tpi), " ", series.name), series.form,
                 size.inches * kInch, kInch / tpi, true, series.of_diameter},
                series.name);
            // BS 811 lists 20 to the inch beside 26 in the larger sizes (from memory).
            if (std::string_view(series.name) == "BSC" && size.inches > 0.43) {
                add(all,
                    {line(size.size, "-20 BSC"), series.form, size.inches * kInch, kInch / 20,
                     false, false},
                    "BSC");
            }
        }
    }
    add(all, {"1-14 UNS", Form::unified, kInch, kInch / 14, false, false}, "UNS");
}

void add_metric(std::vector<Known>& all) {
    const auto take = [&](const screw::MetricSize& row, const char* series) {
        add(all,
            {line("M", plain_number(row.diameter), "x", plain_number(row.pitch)), Form::metric,
             row.diameter / 1e3, row.pitch / 1e3},
            series);
    };
    for (const auto& row : screw::coarse_pitches())
        take(row, "ISO coarse");
    for (const auto& row : screw::fine_pitches())
        take(row, "ISO fine");
    int number = 0;
    for (const auto& row : screw::association_threads()) {
        add(all,
            {line(std::to_string(number++), "BA"), Form::british_association, row.diameter / 1e3,
             row.pitch / 1e3},
            "BA");
    }
}

struct PipeSize {
    const char* size;
    double major; // mm for G, in for NPT
    double tpi;
    double small_end; // in, outside at the thin end of NPT
};

// ISO 228-1 (from memory).
constexpr PipeSize kParallel[] = {
    {"1/16", 7.723, 28, 0},   {"1/8", 9.728, 28, 0},    {"1/4", 13.157, 19, 0},
    {"3/8", 16.662, 19, 0},   {"1/2", 20.955, 14, 0},   {"5/8", 22.911, 14, 0},
    {"3/4", 26.441, 14, 0},   {"7/8", 30.201, 14, 0},   {"1", 33.249, 11, 0},
    {"1 1/4", 41.910, 11, 0}, {"1 1/2", 47.803, 11, 0}, {"2", 59.614, 11, 0}};

// ASME B1.20.1 (from memory): outside diameter of the pipe; at the thin end E0 + 0.8/n.
constexpr PipeSize kTapered[] = {{"1/16", 0.3125, 27, 0.3008}, {"1/8", 0.405, 27, 0.3931},
                                 {"1/4", 0.540, 18, 0.5218},   {"3/8", 0.675, 18, 0.6565},
                                 {"1/2", 0.840, 14, 0.8156},   {"3/4", 1.050, 14, 1.0248},
                                 {"1", 1.315, 11.5, 1.2832},   {"1 1/4", 1.660, 11.5, 1.6267}};

void add_pipes(std::vector<Known>& all) {
    for (const PipeSize& row : kParallel) {
        all.push_back({{line("G ", row.size, "-", plain_number(row.tpi)), Form::whitworth,
                        row.major / 1e3, kInch / row.tpi},
                       "G (BSP)",
                       met("G (BSP)"),
                       false,
                       0});
    }
    for (const PipeSize& row : kTapered) {
        all.push_back({{line(row.size, "-", plain_number(row.tpi), " NPT"), Form::unified,
                        row.major * kInch, kInch / row.tpi},
                       "NPT",
                       met("NPT"),
                       false,
                       (row.major - row.small_end) * kInch});
    }
}

bool alike(double a, double b) {
    return std::abs(a - b) < 1e-9;
}

} // namespace

std::vector<Known> catalogue() {
    std::vector<Known> all;
    all.reserve(320);
    add_inch(all);
    add_metric(all);
    add_pipes(all);
    return all;
}

const char* series_words(const std::string& series) {
    for (const SeriesWords& row : kSeriesWords) {
        if (series == row.series) return row.words;
    }
    return "";
}

bool same_measures(const Thread& a, const Thread& b) {
    return alike(a.diameter, b.diameter) && alike(a.pitch, b.pitch);
}

bool twins(const Thread& a, const Thread& b) {
    return same_measures(a, b) && alike(screw::flank_angle(a.form), screw::flank_angle(b.form));
}

} // namespace fettle::thread

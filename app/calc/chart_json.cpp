#include "calc/chart_json.h"

namespace fettle::calc {
namespace {

using nlohmann::json;

json series_json(const ChartSeries& series) {
    json points = json::array();
    for (const ChartPoint& point : series.points) {
        points.push_back(point.x);
        points.push_back(point.y);
    }
    return {{"name", series.name}, {"look", series.look}, {"points", std::move(points)}};
}

ChartSeries read_series(const json& written) {
    ChartSeries series{.name = written.at("name"), .look = written.at("look"), .points = {}};
    const json& points = written.at("points");
    for (std::size_t at = 0; at + 1 < points.size(); at += 2)
        series.points.push_back({points.at(at).get<double>(), points.at(at + 1).get<double>()});
    return series;
}

} // namespace

json drawn_json(const AnsweredChart& chart) {
    json series = json::array();
    for (const ChartSeries& each : chart.series)
        series.push_back(series_json(each));
    json labels = json::array();
    for (const ChartLabel& label : chart.labels)
        labels.push_back({{"x", label.at.x}, {"y", label.at.y}, {"text", label.text}});
    return {{"series", std::move(series)}, {"labels", std::move(labels)}};
}

void read_drawn(const json& written, AnsweredChart& chart) {
    for (const json& each : written.at("series").get_ref<const json::array_t&>())
        chart.series.push_back(read_series(each));
    for (const json& each : written.at("labels").get_ref<const json::array_t&>())
        chart.labels.push_back(
            {{each.at("x").get<double>(), each.at("y").get<double>()}, each.at("text")});
}

} // namespace fettle::calc

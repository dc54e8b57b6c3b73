// A chart as an SVG 1.1 picture, for taking out of the program. Any thread.
#pragma once

#include "calc/plot_bars.h"

#include <string>

namespace fettle::calc {

std::string chart_svg(const Drawn& chart);
// The same as an element of HTML, which needs no namespace.
std::string chart_in_html(const Drawn& chart);

} // namespace fettle::calc

// A chart as an SVG 1.1 picture, for taking out of the program. Any thread.
#pragma once

#include "calc/answer.h"

#include <string>

namespace fettle::calc {

std::string chart_svg(const AnsweredChart& chart);

} // namespace fettle::calc

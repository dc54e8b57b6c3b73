// A chart of an answer drawn on the page: laid out by calc/plot.h, set in this window's type and
// colours. The point under the pointer is told in words. UI thread only.
#pragma once

#include "calc/plot.h"
#include "ui/frame/page.h"

#include <string_view>

namespace fettle::ui {

// Notes itself under the key, with the chart's label and the words of the point under the pointer.
void chart_view(Page& page, std::string_view key, const calc::AnsweredChart& chart);

// What a plot is made of, its upper left corner there in pixels of the window; nothing but the pen.
struct Corner {
    float x = 0, y = 0;
};
void draw_plot(const Page& page, const calc::Plot& plot, const Corner& corner);

} // namespace fettle::ui

// Things side by side that go on to the next line where the page ends: acts, links, tags.
#pragma once

#include "ui/widgets/acts.h"

#include <functional>
#include <string_view>
#include <vector>

namespace fettle::ui {

class Flow {
  public:
    explicit Flow(const Page& page, float spacing = Measure::kStep);

    // The first thing goes on in the line of what was drawn last, too.
    void go_on() { first_ = false; }

    // Before each thing: its width in pixels, or the words it shows.
    void place(float width);
    void place_button(std::string_view label, const ButtonLook& look);
    // Whether it would stand in the line that was begun.
    bool fits_button(std::string_view label, const ButtonLook& look) const;
    void place_check(std::string_view label);
    void place_link(std::string_view label, Face face = Face::body);
    void place_words(std::string_view text, Face face = Face::body);

  private:
    bool fits(float width) const;
    float width_of_button(std::string_view label, const ButtonLook& look) const;

    const Page& page_;
    float spacing_, line_end_;
    bool first_ = true;
};

// Where the lines end, each by the number of the thing after it, when things of these widths, in
// pixels, go side by side: for many things, of which only those in sight are drawn.
std::vector<std::size_t> line_ends(const Page& page, std::size_t count, float spacing,
                                   const std::function<float(std::size_t)>& width);

// Words at the height of a button or link beside them.
void words_beside(Page& page, std::string_view text, Role role = Role::ink, Face face = Face::body);

} // namespace fettle::ui

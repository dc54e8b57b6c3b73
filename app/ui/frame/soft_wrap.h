// Lines that break where the field ends, not where the writer pressed Enter. Dear ImGui's field of
// several lines cannot do that itself, so it is shown a copy in which some blanks are line ends.
// Copy and text have the same length, so the caret never moves. Pure; knows no Dear ImGui.
#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace fettle::ui {

class SoftWrap {
  public:
    // Width in pixels of a piece of text without line ends.
    using Measure = std::function<float(std::string_view)>;

    // Breaks `text` anew for a field this wide.
    void set(std::string_view text, float width, const Measure& measure);

    // The field's copy was edited into `edited`: finds which line ends are still ours, breaks anew
    // and answers the new copy, of the same length. Leaves field() alone, since the field may be
    // holding on to it; call settle() afterwards.
    const std::string& edit(std::string_view edited, const Measure& measure);

    // What the field writes into, and taking over what it wrote there on its own.
    std::string& field() { return field_; }
    void settle(const Measure& measure);

    std::string text() const; // as the writer meant it
    float width() const { return width_; }

  private:
    void break_lines(const Measure& measure);

    std::string field_;
    std::string broken_;            // as last broken, to compare an edit with
    std::vector<std::size_t> soft_; // positions in broken_, ascending
    float width_ = 0;
};

} // namespace fettle::ui

// Words as a distance field, for stamping, printing and writing. Owns its pixels; drawn once with
// FreeType from a font of the system, then read at any point.
#pragma once

#include "geometry.h"

#include <memory>
#include <string>
#include <vector>

namespace fettle::demo {

enum class Face { stamp, serif, print, plain };

class Lettering {
  public:
    // Height is that of a capital letter, in millimetres; the words are centred on the origin.
    Lettering(const std::string& words, Face face, float capital_height);

    // Signed distance to the strokes, negative inside, in millimetres; large far away.
    float distance(Vec2 p) const;
    Vec2 half() const { return half_; }

  private:
    int width_ = 0, height_ = 0;
    float millimetres_per_pixel_ = 1;
    Vec2 half_, origin_;
    std::vector<float> distances_;
};

using Words = std::shared_ptr<const Lettering>;
inline Words words(const std::string& text, Face face, float capital_height) {
    return std::make_shared<Lettering>(text, face, capital_height);
}

} // namespace fettle::demo

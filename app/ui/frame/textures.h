// Pictures as the graphics card holds them: made from RGBA bytes, freed here. With Surface::none
// (headless frames) nothing is uploaded, but sizes and ids behave alike.
// UI thread only, with the window's OpenGL context current.
#pragma once

#include <cstddef>
#include <cstdint>
#include <list>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace fettle::ui {

enum class Surface { opengl, none };

class Texture {
  public:
    Texture() = default;
    // `rgba` holds width * height * 4 bytes, rows from the top; anything else makes an empty
    // texture.
    Texture(Surface surface, int width, int height, std::span<const std::uint8_t> rgba);
    ~Texture();
    Texture(Texture&& other) noexcept;
    Texture& operator=(Texture&& other) noexcept;

    bool empty() const { return width_ == 0; }
    void* id() const; // for Picture::texture and ImDrawList::AddImage
    int width() const { return width_; }
    int height() const { return height_; }
    std::size_t bytes() const { return std::size_t(width_) * std::size_t(height_) * 4; }

    // Drawn larger than it is: each pixel a square, instead of one running into the next.
    void show_pixels(bool square) const;

  private:
    void free();

    Surface surface_ = Surface::none;
    unsigned name_ = 0;
    int width_ = 0, height_ = 0;
    mutable bool square_pixels_ = false;
};

// Keeps the textures used last within a bound in bytes. What falls out is freed at the next
// new_frame(), since the frame being drawn may still show it.
class TextureCache {
  public:
    explicit TextureCache(std::size_t most_bytes) : most_bytes_(most_bytes) {}

    const Texture* find(std::string_view key); // counts as a use
    const Texture& put(const std::string& key, Texture texture);
    void drop(std::string_view key);
    void new_frame() { falling_.clear(); }

    std::size_t bytes() const { return bytes_; }
    std::size_t count() const { return order_.size(); }

  private:
    struct Kept {
        std::string key;
        Texture texture;
    };
    void let_go(std::list<Kept>::iterator kept);

    std::size_t most_bytes_;
    std::size_t bytes_ = 0;
    std::list<Kept> order_;                                                  // used last first
    std::unordered_map<std::string_view, std::list<Kept>::iterator> by_key_; // views into order_
    std::vector<Texture> falling_;
};

} // namespace fettle::ui

#include "ui/frame/textures.h"

#include <GL/gl.h>
#include <GL/glext.h>

#include <utility>

namespace fettle::ui {

Texture::Texture(Surface surface, int width, int height, std::span<const std::uint8_t> rgba)
    : surface_(surface) {
    if (width <= 0 || height <= 0) return;
    if (rgba.size() != std::size_t(width) * std::size_t(height) * 4) return;
    width_ = width;
    height_ = height;
    name_ = 1;
    if (surface_ == Surface::none) return;
    glGenTextures(1, &name_);
    glBindTexture(GL_TEXTURE_2D, name_);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_S, GL_CLAMP_TO_EDGE);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_T, GL_CLAMP_TO_EDGE);
    glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
    glPixelStorei(GL_UNPACK_ROW_LENGTH, 0);
    glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA8, width, height, 0, GL_RGBA, GL_UNSIGNED_BYTE,
                 rgba.data());
}

Texture::~Texture() {
    free();
}

Texture::Texture(Texture&& other) noexcept
    : surface_(other.surface_),
      name_(std::exchange(other.name_, 0)),
      width_(std::exchange(other.width_, 0)),
      height_(std::exchange(other.height_, 0)),
      square_pixels_(other.square_pixels_) {}

Texture& Texture::operator=(Texture&& other) noexcept {
    if (this != &other) {
        free();
        surface_ = other.surface_;
        name_ = std::exchange(other.name_, 0);
        width_ = std::exchange(other.width_, 0);
        height_ = std::exchange(other.height_, 0);
        square_pixels_ = other.square_pixels_;
    }
    return *this;
}

void Texture::show_pixels(bool square) const {
    if (square == square_pixels_) return;
    square_pixels_ = square;
    if (name_ == 0 || surface_ == Surface::none) return;
    glBindTexture(GL_TEXTURE_2D, name_);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, square ? GL_NEAREST : GL_LINEAR);
}

void Texture::free() {
    if (name_ != 0 && surface_ == Surface::opengl) glDeleteTextures(1, &name_);
    name_ = 0;
}

void* Texture::id() const {
    return reinterpret_cast<void*>(static_cast<std::uintptr_t>(name_));
}

const Texture* TextureCache::find(std::string_view key) {
    const auto found = by_key_.find(key);
    if (found == by_key_.end()) return nullptr;
    order_.splice(order_.begin(), order_, found->second);
    return &found->second->texture;
}

const Texture& TextureCache::put(const std::string& key, Texture texture) {
    drop(key);
    bytes_ += texture.bytes();
    order_.push_front({key, std::move(texture)});
    by_key_.emplace(order_.front().key, order_.begin());
    while (bytes_ > most_bytes_ && order_.size() > 1)
        let_go(std::prev(order_.end()));
    return order_.front().texture;
}

void TextureCache::drop(std::string_view key) {
    if (const auto found = by_key_.find(key); found != by_key_.end()) let_go(found->second);
}

void TextureCache::let_go(std::list<Kept>::iterator kept) {
    bytes_ -= kept->texture.bytes();
    falling_.push_back(std::move(kept->texture));
    by_key_.erase(kept->key);
    order_.erase(kept);
}

} // namespace fettle::ui

// Pictures on their way to the screen: thumbnails and parts of photos, fetched by worker threads,
// turned into textures on the UI thread, within a bound of memory. Asking is cheap and never waits:
// a picture that is not here yet comes with a later frame (the window is woken for it).
// UI thread only. Owns its workers; destroying it ends them.
#pragma once

#include "base/process.h"
#include "notebook/photos.h"
#include "ui/textures.h"

#include <functional>
#include <memory>

namespace fettle::ui {

class Pixels {
  public:
    struct Settings {
        std::size_t most_texture_bytes = 256u << 20;
        std::function<void()> wake; // called from worker threads when a picture has come
        Surface surface = Surface::opengl;
        std::filesystem::path decode_program = own_folder() / "fettlebook-decode";
    };
    Pixels(const Notebook& book, Settings settings);
    ~Pixels();

    // Takes finished pictures over into textures; once at the start of a frame.
    void receive();

    // The thumbnail (longest side 320, upright), or nullptr while it is being fetched.
    const Texture* thumbnail(const Photo& photo);
    // The whole picture shrunk to fit `longest_side`, or nullptr while it is being fetched.
    const Texture* picture(const Photo& photo, int longest_side);
    // A square tile of the picture at 1/2^level of its pixels, kTile pixels a side in the texture
    // (less at the right and lower edges); nullptr while it is being fetched.
    static constexpr int kTile = 512;
    const Texture* tile(const Photo& photo, int level, int column, int row);
    // Why a photo cannot be shown; empty when nothing is known against it.
    std::string failure(const Photo& photo) const;

    // For tests: waits until nothing is being fetched and receives it.
    void settle();

  private:
    struct Inside;
    std::unique_ptr<Inside> inside_;
};

} // namespace fettle::ui

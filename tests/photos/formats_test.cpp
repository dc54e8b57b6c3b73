// The formats phones, cameras and scanners write, against ImageMagick's pixels or the picture a
// file was made from.
#include "photos/scratch.h"
#include "photos/thumbs.h"

#include <doctest/doctest.h>
#include <libheif/heif.h>

using namespace photo_tests;
using namespace fettle::photos;
using fettle::FailureKind;

namespace {

Picture pixels_of(const fs::path& file) {
    CAPTURE(file.string());
    auto decoder = photo_tests::decoder();
    auto picture = decoder.picture(file);
    REQUIRE(sentence_of(picture) == "");
    return std::move(*picture);
}

Look looked_at(const fs::path& file) {
    CAPTURE(file.string());
    auto decoder = photo_tests::decoder();
    auto look = decoder.look(file);
    REQUIRE(sentence_of(look) == "");
    return std::move(*look);
}

// A HEIC whose irot and imir boxes turn the stored pixels as that EXIF orientation would.
void encode_heic(const Picture& picture, int orientation, const fs::path& file) {
    auto* context = heif_context_alloc();
    heif_encoder* encoder = nullptr;
    REQUIRE(heif_context_get_encoder_for_format(context, heif_compression_HEVC, &encoder).code ==
            heif_error_Ok);
    heif_encoder_set_lossy_quality(encoder, 95);
    heif_image* image = nullptr;
    heif_image_create(picture.width, picture.height, heif_colorspace_RGB,
                      heif_chroma_interleaved_RGB, &image);
    heif_image_add_plane(image, heif_channel_interleaved, picture.width, picture.height, 8);
    int stride = 0;
    auto* plane = heif_image_get_plane(image, heif_channel_interleaved, &stride);
    for (int y = 0; y < picture.height; ++y)
        for (int x = 0; x < picture.width; ++x)
            for (int channel = 0; channel < 3; ++channel)
                plane[y * stride + x * 3 + channel] = std::to_integer<std::uint8_t>(
                    picture.rgba[(std::size_t(y) * picture.width + x) * 4 + channel]);
    auto* options = heif_encoding_options_alloc();
    options->image_orientation = static_cast<heif_orientation>(orientation);
    REQUIRE(heif_context_encode_image(context, image, encoder, options, nullptr).code ==
            heif_error_Ok);
    REQUIRE(heif_context_write_to_file(context, file.c_str()).code == heif_error_Ok);
    heif_encoding_options_free(options);
    heif_image_release(image);
    heif_encoder_release(encoder);
    heif_context_free(context);
}

} // namespace

TEST_CASE("HEIC and AVIF show the picture they were made from") {
    Scratch scratch;
    const auto source = make_picture(scratch / "a.png", 322, 214, "-depth 8");
    output_of("heif-enc -q 90 -o " + shell_word(scratch / "a.heic") + " " + shell_word(source));
    output_of("heif-enc -q 90 -L -p chroma=444 --matrix_coefficients=0 -o " +
              shell_word(scratch / "lossless.heic") + " " + shell_word(source));
    output_of("heif-enc -A -q 90 -o " + shell_word(scratch / "a.avif") + " " + shell_word(source));
    CHECK(mean_difference(pixels_of(scratch / "a.heic"), reference_pixels(source)) < 3.0);
    CHECK(mean_difference(pixels_of(scratch / "lossless.heic"), reference_pixels(source)) < 0.6);
    CHECK(mean_difference(pixels_of(scratch / "a.avif"), reference_pixels(source)) < 3.0);
    CHECK(looked_at(scratch / "a.heic").format == "HEIC");
    CHECK(looked_at(scratch / "a.avif").format == "AVIF");
    CHECK(Size{looked_at(scratch / "a.heic").width, looked_at(scratch / "a.heic").height} ==
          Size{322, 214});
}

TEST_CASE("HEIC keeps its EXIF and is turned by its own boxes alone, not once more by EXIF") {
    Scratch scratch;
    const auto source = make_picture(scratch / "a.jpg", 300, 200, "-quality 95");
    set_exif(source, "Exif.Photo.DateTimeOriginal", "2026:03:07 19:42:05");
    set_exif(source, "Exif.Photo.SubSecTimeOriginal", "25");
    set_exif(source, "Exif.Photo.OffsetTimeOriginal", "+01:00");
    set_exif(source, "Exif.Image.Model", "P2026");
    set_exif(source, "Exif.Image.Orientation", "6");
    output_of("heif-enc -q 90 -o " + shell_word(scratch / "a.heic") + " " + shell_word(source));
    const auto look = looked_at(scratch / "a.heic");
    REQUIRE(look.exif.taken.has_value());
    CHECK(to_iso(*look.exif.taken) == "2026-03-07T19:42:05.250+01:00");
    CHECK(look.exif.camera_model == "P2026");
    // heif-enc copies EXIF and writes no irot: the picture stands as it is stored.
    CHECK(look.exif.orientation == 1);
    CHECK(Size{look.width, look.height} == Size{300, 200});
}

TEST_CASE("HEIC, TIFF and WebP stand upright for all eight orientations") {
    Scratch scratch;
    const auto plain = make_picture(scratch / "plain.png", 240, 160, "-depth 8");
    const auto stored = reference_pixels(plain);
    const char* const orients[] = {"top-left", "top-right", "bottom-right", "bottom-left",
                                   "left-top", "right-top", "right-bottom", "left-bottom"};
    for (int orientation = 1; orientation <= 8; ++orientation) {
        CAPTURE(orientation);
        const Size full = orientation <= 4 ? Size{240, 160} : Size{160, 240};
        // ImageMagick's own turning of a TIFF is the reference for all three.
        const auto tiff = scratch / "turned.tif";
        output_of("convert " + shell_word(plain) + " -orient " + orients[orientation - 1] + " " +
                  shell_word(tiff));
        const auto upright = reference_pixels(tiff, "-auto-orient");
        REQUIRE(upright.size() == full);
        CHECK(mean_difference(pixels_of(tiff), upright) < 0.01);
        CHECK(Size{looked_at(tiff).width, looked_at(tiff).height} == full);

        const auto webp = scratch / "turned.webp";
        output_of("convert " + shell_word(plain) + " -define webp:lossless=true " +
                  shell_word(webp));
        set_exif(webp, "Exif.Image.Orientation", std::to_string(orientation));
        CHECK(mean_difference(pixels_of(webp), upright) < 0.6);
        CHECK(looked_at(webp).exif.orientation == orientation);

        encode_heic(stored, orientation, scratch / "turned.heic");
        CHECK(mean_difference(pixels_of(scratch / "turned.heic"), upright) < 3.0);
        CHECK(Size{looked_at(scratch / "turned.heic").width,
                   looked_at(scratch / "turned.heic").height} == full);
    }
}

TEST_CASE("WebP and TIFF of every kind give the pixels ImageMagick gives") {
    Scratch scratch;
    struct Case {
        std::string name, how;
        double most = 0.6;
    };
    for (const auto& [name, how, most] : {
             // Chroma is stored at half size: decoders differ in how they smooth it.
             Case{"lossy.webp", "-quality 90", 2.0},
             Case{"lossless.webp", "-define webp:lossless=true"},
             Case{"alpha.webp",
                  "-alpha set -channel A -fx i/w +channel -define webp:lossless=true"},
             Case{"plain.tif", "-compress None"},
             Case{"lzw.tif", "-compress LZW"},
             Case{"zip.tif", "-compress Zip"},
             Case{"jpeg.tif", "-compress JPEG -quality 92", 2.0},
             Case{"packed.tif", "-compress RLE"},
             Case{"deep.tif", "-depth 16"},
             Case{"grey.tif", "-colorspace Gray"},
             Case{"grey16.tif", "-colorspace Gray -depth 16"},
             Case{"fax.tif", "-colorspace Gray -threshold 50% -compress Group4"},
             Case{"palette.tif", "-colors 60 -type Palette"},
             Case{"tiles.tif", "-define tiff:tile-geometry=32x32"},
             Case{"planes.tif", "-interlace Plane"},
             Case{"alpha.tif", "-alpha set -channel A -fx i/w +channel"},
             Case{"msb.tif", "-endian MSB"},
         }) {
        CAPTURE(name);
        const auto file = make_picture(scratch / name, 161, 97, how);
        CHECK(mean_difference(pixels_of(file), reference_pixels(file)) < most);
        CHECK(looked_at(file).format == (name.ends_with("webp") ? "WebP" : "TIFF"));
    }
    output_of("convert " + shell_word(scratch / "plain.tif") +
              " -alpha off -colorspace CMYK -depth 8 " + shell_word(scratch / "cmyk.tif"));
    CHECK(mean_difference(pixels_of(scratch / "cmyk.tif"), reference_pixels(scratch / "cmyk.tif")) <
          2.0);
}

TEST_CASE("of a moving WebP and of a TIFF of several pages the first picture is shown") {
    Scratch scratch;
    output_of("convert -size 20x10 xc:red xc:blue -define webp:lossless=true " +
              shell_word(scratch / "two.webp"));
    output_of("convert -size 20x10 xc:red xc:blue " + shell_word(scratch / "two.tif"));
    output_of("convert -size 20x10 xc:red " + shell_word(scratch / "r.png") +
              " && convert -size "
              "20x10 xc:blue " +
              shell_word(scratch / "b.png"));
    output_of("img2webp -lossless " + shell_word(scratch / "r.png") + " " +
              shell_word(scratch / "b.png") + " -o " + shell_word(scratch / "moving.webp") +
              " 2>&1");
    for (const char* name : {"two.webp", "two.tif", "moving.webp"}) {
        CAPTURE(name);
        const auto picture = pixels_of(scratch / name);
        CHECK(picture.rgba[0] == std::byte{255});
        CHECK(picture.rgba[2] == std::byte{0});
    }
}

TEST_CASE("of an MPO, two JPEGs in one file, the first is shown") {
    Scratch scratch;
    const auto left = make_picture(scratch / "left.jpg", 200, 150, "-quality 92");
    output_of("convert -size 200x150 xc:navy " + shell_word(scratch / "right.jpg"));
    set_exif(left, "Exif.Photo.DateTimeOriginal", "2026:03:07 19:42:05");
    auto both = bytes_of(left);
    const auto right = bytes_of(scratch / "right.jpg");
    both.insert(both.end(), right.begin(), right.end());
    write_file(scratch / "stereo.mpo", both);
    CHECK(mean_difference(pixels_of(scratch / "stereo.mpo"), reference_pixels(left)) < 1.0);
    const auto look = looked_at(scratch / "stereo.mpo");
    CHECK(look.format == "JPEG");
    CHECK(look.exif.taken.has_value());
    CHECK_FALSE(look.damaged);
}

TEST_CASE("JPEG in four inks, progressive and grey gives the pixels ImageMagick gives") {
    Scratch scratch;
    for (const std::string how :
         {"-colorspace CMYK -quality 95", "-interlace JPEG -quality 95",
          "-colorspace Gray -quality 95", "-colorspace CMYK -interlace JPEG -quality 95",
          "-sampling-factor 4:4:4 -quality 95", "-sampling-factor 4:2:2 -quality 95"}) {
        CAPTURE(how);
        const auto file = make_picture(scratch / "a.jpg", 161, 97, how);
        // Inks become colours without a profile here, in ImageMagick by its own formula.
        CHECK(mean_difference(pixels_of(file), reference_pixels(file)) < 2.5);
    }
}

TEST_CASE("HEIC, WebP and TIFF that are cut off or broken are refused as damaged") {
    Scratch scratch;
    const auto png = make_picture(scratch / "a.png", 300, 200);
    output_of("heif-enc -o " + shell_word(scratch / "a.heic") + " " + shell_word(png));
    output_of("convert " + shell_word(png) + " -quality 90 " + shell_word(scratch / "a.webp"));
    output_of("convert " + shell_word(png) + " -compress Zip " + shell_word(scratch / "a.tif"));
    auto decoder = photo_tests::decoder();
    for (const char* name : {"a.heic", "a.webp", "a.tif"}) {
        CAPTURE(name);
        const auto whole = bytes_of(scratch / name);
        for (const std::size_t kept : {whole.size() / 2, std::size_t(60)}) {
            CAPTURE(kept);
            write_file(scratch / "cut", std::span(whole).first(kept));
            const auto look = decoder.look(scratch / "cut");
            REQUIRE_FALSE(look.ok());
            CHECK(look.failure().kind == FailureKind::damaged);
            CHECK(look.failure().sentence.starts_with("cut is damaged: "));
        }
    }
}

TEST_CASE("raw pictures of cameras and films are refused and named as what they are") {
    Scratch scratch;
    write_file(scratch / "a.cr2", std::string_view("II*\0\x10\0\0\0CR\2\0", 12));
    write_file(scratch / "a.cr3", std::string_view("\0\0\0\x18"
                                                   "ftypcrx \0\0\0\1crx isom",
                                                   24));
    write_file(scratch / "a.mp4", std::string_view("\0\0\0\x18"
                                                   "ftypisom\0\0\2\0isommp42",
                                                   24));
    // A TIFF of sensor samples (TIFF/EP: PhotometricInterpretation 32803).
    output_of("convert -size 32x32 gradient: -depth 8 -compress None " +
              shell_word(scratch / "a.tif") + " && tiffset -s 262 32803 " +
              shell_word(scratch / "a.tif"));
    auto decoder = photo_tests::decoder();
    for (const auto& [name, what] :
         {std::pair{"a.cr2", "a.cr2 is a raw picture; "},
          std::pair{"a.cr3", "a.cr3 is a raw picture; "}, std::pair{"a.mp4", "a.mp4 is a film; "},
          std::pair{"a.tif", "a.tif is a raw picture; "}}) {
        const auto look = decoder.look(scratch / name);
        REQUIRE_FALSE(look.ok());
        CHECK(look.failure().kind == FailureKind::invalid);
        CHECK(look.failure().sentence.starts_with(what));
    }
}

#include "fuzz/targets.h"

#include "base/csv.h"
#include "base/date.h"
#include "base/names_in_text.h"
#include "base/quantity.h"
#include "base/tag.h"
#include "base/text.h"
#include "calc/answer.h"
#include "calc/check_plugin.h"
#include "calc/description_json.h"
#include "calc/plot_svg.h"
#include "calc/run_sheet.h"
#include "desk/book_written_out.h"
#include "photos/decode.h"
#include "photos/exif.h"
#include "photos/name_time.h"
#include "photos/placeless.h"
#include "photos/shelf.h"
#include "photos/sidecar_wire.h"
#include "photos/sight.h"
#include "photos/tag_read.h"
#include "photos/tag_scan.h"
#include "photos/wire.h"
#include "photos/xmp.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstdlib>
#include <cstring>

namespace fuzz {

void must(bool holds) {
    if (!holds) std::abort();
}

void must_be_text(const std::string& sentence) {
    must(!sentence.empty() && fettle::safe_utf8(sentence) == sentence);
}

namespace {

using namespace fettle;
using nlohmann::json;

std::string_view text_of(Input input) {
    return {reinterpret_cast<const char*>(input.data()), input.size()};
}

// Larger pictures are only slower to read.
constexpr std::int64_t kMostPixelsHere = 1 << 20;

void picture(Input input) {
    const auto bytes = std::as_bytes(input);
    for (const char* extension : {".jpg", ".tga"}) {
        const auto recognised = photos::recognise(bytes, extension);
        if (!recognised) continue;
        const auto stored = recognised->stored;
        if (std::int64_t(stored.width) * stored.height > kMostPixelsHere) return;
        const auto exif = photos::exif_of(*recognised, bytes);
        must(exif.orientation >= 1 && exif.orientation <= 8);
        (void)photos::see(*recognised, bytes, photos::fitted(stored, 320));
        if (auto whole = photos::decode(*recognised, bytes, stored))
            must(whole->picture.rgba.size() ==
                 std::size_t(whole->picture.width) * whole->picture.height * 4);
        (void)photos::without_place({bytes.begin(), bytes.end()}, recognised->format);
        return;
    }
}

// The input as the EXIF block of a JPEG.
void exif(Input input) {
    if (input.size() > 65'000) return;
    const auto length = input.size() + 8;
    std::vector<std::uint8_t> file{
        0xff, 0xd8, 0xff, 0xe1, std::uint8_t(length >> 8), std::uint8_t(length), 'E', 'x',
        'i',  'f',  0,    0};
    file.insert(file.end(), input.begin(), input.end());
    file.insert(file.end(), {0xff, 0xd9});
    const auto facts = photos::read_exif(std::as_bytes(std::span(file)));
    must(facts.orientation >= 1 && facts.orientation <= 8);
    if (facts.place)
        must(std::abs(facts.place->latitude) <= 90 && std::abs(facts.place->longitude) <= 180);
}

// Bits as the modules of a square picture, four pixels each, with a light border; and the input as
// the text of a code.
void tag(Input input) {
    if (const auto read = tag_of_code(text_of(input))) must(is_tag(*read));
    constexpr int kPixels = 4, kBorder = 4;
    const int side = std::min(60, static_cast<int>(std::sqrt(double(input.size() * 8))));
    if (side < 21) return; // version 1 of ISO/IEC 18004
    const int width = (side + 2 * kBorder) * kPixels;
    photos::Grey grey{width, width, std::vector<std::uint8_t>(std::size_t(width) * width, 255)};
    for (int y = 0; y < side * kPixels; ++y)
        for (int x = 0; x < side * kPixels; ++x) {
            const int bit = y / kPixels * side + x / kPixels;
            if (input[bit / 8] >> (bit % 8) & 1)
                grey.samples[std::size_t(y + kBorder * kPixels) * width + x + kBorder * kPixels] =
                    0;
        }
    for (const auto& place : photos::tag_places(grey))
        for (const auto& read : photos::tags_in(photos::cropped(grey, place.box), place.module, 1,
                                                photos::Effort::thorough))
            must(is_tag(read.tag));
}

void csv(Input input) {
    for (const auto encoding : {CsvText::utf8, CsvText::windows_1252}) {
        const auto table = read_csv(text_of(input), encoding);
        if (!table) continue;
        // What was read and is written again reads the same.
        std::string again;
        for (const auto& row : table->rows)
            again += csv_row(row.fields);
        const auto twice = read_csv(again);
        must(twice.ok());
    }
}

void xmp(Input input) {
    const photos::Lie lie{{640, 480}, 6};
    const auto read = photos::read_xmp(text_of(input), lie);
    if (read)
        for (const auto& box : read->boxes)
            must(std::isfinite(box.x) && std::isfinite(box.y) && std::isfinite(box.w) &&
                 std::isfinite(box.h));
    const photos::Sidecar sidecar{.description = "x", .subjects = {"fettlebook:H7"}};
    (void)photos::with_sidecar(text_of(input), sidecar, lie);
}

void number(Input input) {
    const auto text = text_of(input);
    if (const auto read = parse_number(text)) must(std::isfinite(*read));
    constexpr std::pair<const char*, const char*> kKinds[] = {
        {"number", ""},     {"count", ""},         {"ratio", ""},  {"length", "mm"},
        {"angle", "°"},     {"mass", "kg"},        {"force", "N"}, {"torque", "N.m"},
        {"pressure", "Pa"}, {"temperature", "°C"}, {"time", "s"},  {"area", "mm2"},
        {"speed", "m/s"},   {"frequency", "Hz"}};
    for (const auto& [kind, unit] : kKinds)
        if (const auto read = parse_quantity(text, kind, unit)) {
            must(std::isfinite(read->si) && std::isfinite(read->half_step));
            must(!format_quantity(read->si, kind, unit, 4).empty());
        }
    if (const auto day = parse_day(text)) must(parse_day(to_iso(*day)).ok());
    if (const auto moment = parse_moment(text)) must(parse_moment(to_iso(*moment)).ok());
    (void)photos::time_in_name(text);
    must(!photos::shelf_name(std::filesystem::path(text)).empty());
}

// A sheet with something of everything, for answers to be read by.
calc::Sheet any_sheet() {
    calc::Sheet sheet;
    sheet.id = "any.sheet";
    calc::Input length;
    length.id = length.label = "length";
    length.quantity = "length";
    length.unit = "mm";
    length.preset = "10";
    sheet.inputs = {length};
    calc::Output area;
    area.id = area.label = "area";
    area.quantity = "area";
    area.unit = "mm2";
    area.digits = 3;
    sheet.outputs = {area};
    calc::Column side;
    side.id = side.label = "side";
    side.quantity = "length";
    side.unit = "mm";
    sheet.tables = {{"sides", "Sides", {side}}};
    sheet.charts = {{"drawn", "Drawn", false, {"x", "length", "mm", ""}, {"y", "force", "N", ""}}};
    return sheet;
}

void show(const calc::Answer& answer) {
    (void)calc::command_line_json(answer, calc::Units::inch)
        .dump(-1, ' ', false, json::error_handler_t::replace);
    for (const auto& chart : answer.charts)
        (void)calc::chart_svg(chart);
    (void)calc::agree(answer, answer);
}

void plugin_says(const json& said) {
    try {
        const auto plugin = said.get<calc::Plugin>();
        if (calc::check_plugin(plugin, plugin.id))
            for (const auto& sheet : plugin.sheets)
                (void)calc::read_inputs(sheet, calc::fresh_inputs(sheet));
    } catch (const json::exception&) {
    }
    static const calc::Plugin plugin{"any", "Any", "1", {}, {any_sheet()}};
    const calc::Sheet& sheet = plugin.sheets.front();
    if (const auto answer =
            calc::read_answer({&plugin, &sheet}, calc::read_inputs(sheet, {}), said))
        show(*answer);
    if (const auto kept = calc::from_json(said)) show(*kept);
}

// What plugins and decoders say through their pipes, and answers kept in the notebook.
void message(Input input) {
    const Frame frame{std::string(text_of(input)), {}};
    (void)photos::question_from(frame.text);
    (void)photos::sidecar_wish_from(frame.text);
    (void)photos::hash_from({frame.text, {}});
    if (const auto look = photos::look_from({frame.text, std::vector<std::byte>(8)}))
        must(look->width > 0 && look->height > 0);
    if (const auto got = photos::picture_from({frame.text, std::vector<std::byte>(16)}))
        must(got->width * got->height == 4);
    (void)photos::size_from({frame.text, {}});
    (void)photos::sidecar_from({frame.text, {}});
    const auto said = json::parse(frame.text, nullptr, false);
    if (said.is_object()) plugin_says(said);
}

std::string ascii_words(std::string_view text) {
    std::string kept;
    for (const char letter : text)
        if (std::isalnum(static_cast<unsigned char>(letter)) != 0) kept += letter;
    std::ranges::sort(kept);
    return kept;
}

// Every letter and figure is shown, unless names are there, whose targets are not; and the book's
// HTML and Markdown can be made of it.
void marked(Input input) {
    const auto text = text_of(input);
    auto blocks = blocks_of(text);
    if (names_in(text).empty()) must(ascii_words(words_of_marked(text)) == ascii_words(text));
    must(renamed(text, [](const NameInText& name) { return std::optional(name); }) == text);
    (void)desk::html_of(blocks, 4);
    (void)desk::markdown_of(blocks, 4);
    (void)cut_at_sheets(std::move(blocks), {{"shim.stack", ""}});
}

} // namespace

const std::vector<Target>& targets() {
    static const std::vector<Target> all = {
        {"picture", picture}, {"exif", exif},       {"tag", tag},         {"csv", csv},
        {"xmp", xmp},         {"number", number},   {"message", message}, {"data", given_data},
        {"archive", archive}, {"carried", carried}, {"marked", marked}};
    return all;
}

const Target* target_called(const char* name) {
    for (const auto& target : targets())
        if (std::strcmp(target.name, name) == 0) return &target;
    return nullptr;
}

} // namespace fuzz

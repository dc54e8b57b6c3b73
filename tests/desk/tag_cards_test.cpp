// Tag cards, rendered by poppler and read by zxing as a phone would read the printed sheet.
#include "desk/tag_cards.h"
#include "notebook/fixture.h"

#include <ReadBarcode.h>

using namespace fettle;
using namespace fettle::desk;

namespace {

std::string output_of(const std::string& command) {
    std::string output;
    FILE* pipe = popen(command.c_str(), "r");
    REQUIRE(pipe != nullptr);
    char chunk[65536];
    for (std::size_t got; (got = fread(chunk, 1, sizeof chunk, pipe)) > 0;)
        output.append(chunk, got);
    REQUIRE(pclose(pipe) == 0);
    return output;
}

struct Page {
    int width = 0, height = 0;
    std::string grey;
    int at(double x_mm, double y_mm, double dpi) const {
        const auto x = std::size_t(x_mm / 25.4 * dpi), y = std::size_t(y_mm / 25.4 * dpi);
        return static_cast<unsigned char>(grey[y * std::size_t(width) + x]);
    }
};

Page rendered(const std::filesystem::path& pdf, int page, int dpi) {
    const auto number = std::to_string(page);
    const auto pgm = output_of("pdftoppm -gray -r " + std::to_string(dpi) + " -f " + number +
                               " -l " + number + " '" + pdf.string() + "'");
    Page made;
    int start = 0;
    REQUIRE(std::sscanf(pgm.c_str(), "P5 %d %d 255%n", &made.width, &made.height, &start) == 2);
    made.grey = pgm.substr(std::size_t(start) + 1);
    REQUIRE(made.grey.size() == std::size_t(made.width) * made.height);
    return made;
}

// What a reader finds on the card at a place of the sheet, cut out along its marks.
std::string code_on(const Page& page, Paper paper, CardSize size, int place, int dpi) {
    const auto grid = grid_of(paper, size);
    const auto& card = measures_of(size);
    const auto dots = [&](double millimetres) { return int(millimetres / 25.4 * dpi); };
    const int left = dots(grid.left + place % grid.columns * card.width);
    const int top = dots(grid.top + place / grid.columns * card.height);
    const ZXing::ImageView sheet(reinterpret_cast<const std::uint8_t*>(page.grey.data()),
                                 page.width, page.height, ZXing::ImageFormat::Lum);
    return ZXing::ReadBarcode(sheet.cropped(left, top, dots(card.width), dots(card.height)),
                              ZXing::DecodeHints().setFormats(ZXing::BarcodeFormat::QRCode))
        .text();
}

std::vector<TagCard> some_cards(int count) {
    std::vector<TagCard> cards;
    for (int number = 1; number <= count; ++number)
        cards.push_back(
            {"H" + std::to_string(number), "spring hanger, number " + std::to_string(number)});
    return cards;
}

} // namespace

TEST_CASE("cards of all sizes on both papers hold every tag, readable at print resolution") {
    TempFolder folder;
    const auto pdf = folder / "tags.pdf";
    const int count = 23;
    for (auto paper : {Paper::a4, Paper::letter})
        for (auto size : {CardSize::small, CardSize::medium, CardSize::large}) {
            CAPTURE(measures_of(paper).name);
            CAPTURE(measures_of(size).name);
            const int sheets = must(write_tag_cards(pdf, some_cards(count), paper, size));
            const auto grid = grid_of(paper, size);
            CHECK(sheets == (count + grid.columns * grid.rows - 1) / (grid.columns * grid.rows));
            // ISO 216 A4 in points; ANSI Letter is 8.5 x 11 inches of 72.
            const auto facts = output_of("pdfinfo '" + pdf.string() + "'");
            CHECK(holds(facts, "Pages:           " + std::to_string(sheets)));
            CHECK(holds(facts, paper == Paper::a4 ? "595.276 x 841.89" : "612 x 792"));
            const auto text = output_of("pdftotext -layout '" + pdf.string() + "' -");
            CHECK(holds(text, "H23"));
            CHECK(holds(text, "spring"));

            const int on_sheet = grid.columns * grid.rows;
            for (int page = 1, number = 1; page <= sheets; ++page) {
                const auto sheet = rendered(pdf, page, 300);
                for (int place = 0; place < on_sheet && number <= count; ++place, ++number)
                    CHECK(code_on(sheet, paper, size, place, 300) ==
                          "fettlebook:H" + std::to_string(number));
            }
        }
}

TEST_CASE("cut marks stand at the corners of every card, inside the sheet") {
    TempFolder folder;
    must(write_tag_cards(folder / "tags.pdf", some_cards(40), Paper::a4, CardSize::small));
    const auto page = rendered(folder / "tags.pdf", 1, 600);
    const auto grid = grid_of(Paper::a4, CardSize::small);
    const auto& card = measures_of(CardSize::small);
    CHECK(grid.left >= 5);
    CHECK(grid.top >= 5);
    for (int column = 0; column <= grid.columns; ++column)
        for (int row = 0; row <= grid.rows; ++row) {
            const double x = grid.left + column * card.width, y = grid.top + row * card.height;
            int darkest = 255; // the line is a tenth of a millimetre wide
            for (double off : {-0.06, -0.03, 0.0, 0.03, 0.06})
                darkest = std::min(darkest, page.at(x + off, y + 1.5, 600));
            CHECK(darkest < 200);
        }
}

TEST_CASE("the longest tag and a long name stay on their card") {
    TempFolder folder;
    const std::string tag = "ABCDEFGH-1234567";
    std::string name = "Übermaßkolbenbolzen";
    for (int word = 0; word < 40; ++word)
        name += " with many words";
    must(write_tag_cards(folder / "tags.pdf", {{tag, name}}, Paper::letter, CardSize::small));
    const auto page = rendered(folder / "tags.pdf", 1, 300);
    CHECK(code_on(page, Paper::letter, CardSize::small, 0, 300) == "fettlebook:" + tag);
    const auto grid = grid_of(Paper::letter, CardSize::small);
    const auto& card = measures_of(CardSize::small);
    // Nothing but marks beside and below the only card.
    for (double off = 3; off < card.height - 3; off += 0.1)
        CHECK(page.at(grid.left + card.width + 0.5, grid.top + off, 300) == 255);
    for (double off = 3; off < card.width - 3; off += 0.1)
        CHECK(page.at(grid.left + off, grid.top + card.height + 0.5, 300) == 255);
    CHECK(holds(output_of("pdftotext '" + (folder / "tags.pdf").string() + "' -"), "…"));
}

TEST_CASE("papers, sizes, tags and places that cannot be are refused") {
    TempFolder folder;
    CHECK(must(paper_called("A4")) == Paper::a4);
    CHECK(holds(sentence(paper_called("legal")), "a4, letter"));
    CHECK(holds(sentence(card_size_called("huge")), "small, medium, large"));
    const auto write = [&](const std::filesystem::path& file, std::vector<TagCard> cards) {
        return sentence(write_tag_cards(file, cards, Paper::a4, CardSize::small));
    };
    CHECK(holds(write(folder / "a.pdf", {}), "no parts"));
    CHECK(holds(write(folder / "a.pdf", {{"H 7", "x"}}), "H 7"));
    CHECK(holds(write(folder / "nowhere/a.pdf", some_cards(1)), "No such file"));
    CHECK_FALSE(std::filesystem::exists(folder / "a.pdf"));
}

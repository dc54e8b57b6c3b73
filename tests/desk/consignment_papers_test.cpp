// Packing lists and claims as poppler reads them.
#include "desk/consignment_papers.h"
#include "notebook/fixture.h"

using namespace fettle;

namespace {

std::string text_of(const std::filesystem::path& pdf) {
    std::string output;
    FILE* pipe = popen(("pdftotext -layout '" + pdf.string() + "' -").c_str(), "r");
    REQUIRE(pipe != nullptr);
    char chunk[65536];
    for (std::size_t got; (got = fread(chunk, 1, sizeof chunk, pipe)) > 0;)
        output.append(chunk, got);
    REQUIRE(pclose(pipe) == 0);
    return output;
}

} // namespace

TEST_CASE("a long list goes on page after page with every tag, and odd names stay on the paper") {
    Desk desk;
    const auto id = must(
        keep_consignment(desk.book, {.firm = "Hebble Lane Machine Shop", .purpose = "machining"}));
    CHECK(holds(sentence(desk::write_packing_list(desk.book, id, desk.folder / "list.pdf")),
                "Nothing is on consignment 1"));
    std::string longest = "Bolzen für Übermaß ⅞";
    for (int word = 0; word < 60; ++word)
        longest += " und noch";
    for (int number = 1; number <= 14; ++number) {
        const auto part = desk.part("H" + std::to_string(number), number == 3 ? longest : "hanger");
        must(put_on(desk.book, id, {.part = part.id, .value = Money{1250, "GBP"}}));
    }
    const int pages = must(desk::write_packing_list(desk.book, id, desk.folder / "list.pdf"));
    CHECK(pages == 3); // 40 mm each, about six to a page below the head
    const auto text = text_of(desk.folder / "list.pdf");
    for (int number = 1; number <= 14; ++number)
        CHECK(holds(text, "H" + std::to_string(number)));
    CHECK(holds(text, "14 tags, 14 pieces"));
    CHECK(holds(text, "175.00 GBP")); // 14 times 12.50
    CHECK(holds(text, "page 3"));
    CHECK(holds(text, "für Übermaß ⅞"));
    CHECK(holds(text, "…"));
}

TEST_CASE(
    "a claim says what is missing of which value, and a photo that is lost leaves its frame") {
    Desk desk;
    const auto id = must(keep_consignment(desk.book, {.firm = "F", .purpose = "machining"}));
    Part plates = desk.part("K2", "shackle plates");
    plates.quantity = 3;
    must(set_part(desk.book, plates));
    must(put_on(desk.book, id, {.part = plates.id, .value = Money{1000, "GBP"}}));
    must(send_consignment(desk.book, id, must(parse_day("2026-03-03"))));
    must(tie_photos(desk.book, {desk.photo("gone.jpg", "2026-03-01T10:00:00")}, plates.id,
                    Stage::before));
    must(receive(desk.book, id, {.items = {{plates.id, 1}}, .on = must(parse_day("2026-03-18"))}));
    const auto now = must(consignment_by_id(desk.book, id));
    // Two thirds of 10.00, to the nearest penny.
    CHECK(desk::missing_value_words(now) == "6.67 GBP");
    CHECK(desk::declared_words(now) == "10.00 GBP");
    must(desk::write_claim_pack(desk.book, id, desk.folder / "claim.pdf"));
    const auto text = text_of(desk.folder / "claim.pdf");
    CHECK(holds(text, "sent 3, back 1, missing 2"));
    CHECK(holds(text, "photo 1 cannot be read"));
    CHECK(holds(text, "No paper was photographed"));
    CHECK(desk::place_of_paper(desk.book, id, desk::ConsignmentPaper::claim_pack) ==
          desk.folder / "book/papers/consignment-1-claim.pdf");
}

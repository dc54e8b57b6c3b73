// The printed card of a part: its tag, a line of words, and its QR code, as desk/tag_cards.cpp
// prints them.
#include "parts.h"

#include <BarcodeFormat.h>
#include <BitMatrix.h>
#include <MultiFormatWriter.h>

#include <memory>

namespace fettle::demo {

void code_card(Scene& scene, Placement at, const std::string& code, const std::string& line) {
    constexpr float kModule = 2; // millimetres
    // No border of the writer's own: the card is white around the code.
    const auto modules = std::make_shared<const ZXing::BitMatrix>(
        ZXing::MultiFormatWriter(ZXing::BarcodeFormat::QRCode)
            .setMargin(0)
            .encode("fettlebook:" + code, 0, 0));
    const float half = kModule * static_cast<float>(modules->width()) / 2;
    const Words big = words(code, Face::print, 12);
    const Words small = words(line, Face::plain, 3);
    const float longest = std::max(small->half().x, 1.0f), squeeze = std::min(1.0f, 30 / longest);
    const Vec2 middle = {0, 12}; // of the code on the card
    const auto print = [=](Vec2 p) {
        const Vec2 q = p - middle;
        if (std::fabs(q.x) < half && std::fabs(q.y) < half) {
            const int column = static_cast<int>((q.x + half) / kModule);
            const int row = static_cast<int>((half - q.y) / kModule);
            const int last = modules->width() - 1;
            return modules->get(std::clamp(column, 0, last), std::clamp(row, 0, last)) ? 1.0f
                                                                                       : 0.0f;
        }
        const float name = smooth(0.2f, -0.2f, big->distance(p - Vec2{0, -21}));
        const Vec2 under = {p.x / squeeze, (p.y + 36) / squeeze};
        return std::max(name, smooth(0.1f, -0.1f, small->distance(under)));
    };
    Surface card;
    card.finish = Finish::paper;
    card.tint = {0.74f, 0.73f, 0.69f};
    card.print_colour = {0.02f, 0.02f, 0.022f};
    card.frame = at;
    card.amount = 0.15f;
    card.seed = 78;
    card.print = print;
    const int paper = scene.add_surface(card);
    scene.add(at, {36, 44}, [=](Vec2 p) -> Top {
        return {raised(slab(p, {34, 42}, 1), 0.6f, 0.15f), paper};
    });
}

} // namespace fettle::demo

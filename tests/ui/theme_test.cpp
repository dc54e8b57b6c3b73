#include "ui/frame/theme.h"

#include <doctest/doctest.h>

using namespace fettle::ui;

// WCAG 2.1, "contrast ratio" and success criterion 1.4.3: black on white is 21:1, text needs 4.5:1.
TEST_CASE("contrast follows WCAG 2") {
    const Colour black{0, 0, 0}, white{255, 255, 255};
    CHECK(contrast(black, white) == doctest::Approx(21.0).epsilon(1e-9));
    CHECK(contrast(white, white) == doctest::Approx(1.0));
    // #767676 is the lightest grey that reaches 4.5:1 on white; #777777 is not (W3C, technique G18
    // arithmetic).
    CHECK(contrast({0x76, 0x76, 0x76}, white) >= 4.5);
    CHECK(contrast({0x77, 0x77, 0x77}, white) < 4.5);
}

TEST_CASE("every role that carries words is readable on both grounds, by day and by night") {
    for (const Light light : {Light::day, Light::night}) {
        for (const Role ground : {Role::paper, Role::sheet}) {
            for (const Role role : kTextRoles) {
                CAPTURE(static_cast<int>(light));
                CAPTURE(static_cast<int>(ground));
                CAPTURE(static_cast<int>(role));
                CHECK(contrast(colour_of(role, light), colour_of(ground, light)) >= 4.5);
            }
        }
        // The next act: words in the colour of the paper on red lead.
        CHECK(contrast(colour_of(Role::paper, light), colour_of(Role::red_lead, light)) >= 4.5);
    }
}

TEST_CASE("measures follow the scale and fall on whole pixels") {
    Theme theme;
    theme.scale = 1.5F;
    CHECK(theme.px(Measure::kRow) == 54);
    theme.scale = 1.25F;
    CHECK(theme.px(Measure::kTarget) == 40);
    CHECK(theme.px(1) == 1);
}

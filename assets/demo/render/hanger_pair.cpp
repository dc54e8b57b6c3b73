#include "hanger_pair.h"

#include "parts.h"
#include "studio.h"

namespace fettle::demo {

namespace {

int surface_of(Scene& scene, HangerState state) {
    switch (state) {
    case HangerState::rusted:
        return rust(scene, 0.75f);
    case HangerState::blasted:
        return blasted(scene);
    case HangerState::primed:
        return primer(scene);
    case HangerState::enamelled:
        return enamel(scene);
    }
    return 0;
}

Scene set_down(HangerState state, Hour hour) {
    // One seed for all states keeps pits and bench where they were.
    Scene s = studio(118, Ground::bench, hour);
    const int body = surface_of(s, state);
    const int face = state == HangerState::rusted ? greased(s, 0.4f) : ground_steel(s, 0.95f);
    Stamp mark = quernmore(5.2f);
    mark.depth = state == HangerState::rusted ? 0.55f : 0.8f;
    mark.wear = state == HangerState::rusted      ? 0.42f
                : state == HangerState::enamelled ? 0.25f
                                                  : 0.1f;
    mark.seed = 6;
    Stamp figures = number("1127", 5);
    figures.wear = mark.wear;
    figures.depth = mark.depth * 0.8f;
    const Placement at = {0, 0, 0, 0.42f}, spot = {-9, -51, 12, 0.06f};
    spring_hanger(s, at, {body, face, {{mark, spot}, {figures, {26, -53, 12, -0.05f}}}});
    note_mark(s, at.of(spot), mark, "QM");
    s.camera = {{6, 4}, 12, 262, 1.05f, 0.40f, -0.03f, 1};
    return s;
}

} // namespace

Scene hanger_view(HangerState state) {
    Scene s = set_down(state, state == HangerState::rusted ? Hour::bulb : Hour::tube);
    return s;
}

Scene hanger_mark(HangerState state) {
    Scene s = set_down(state, Hour::torch);
    s.camera = {{17, -48}, 12, 66, 1.3f, 0.28f, 0.38f, 1.6f};
    return s;
}

} // namespace fettle::demo

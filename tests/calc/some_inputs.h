// Inputs of every shape for tests that need no plugin.
#pragma once

#include "calc/sheet.h"

namespace fettle::calc {

inline Input length_input(const char* id, const char* label, const char* unit) {
    Input input;
    input.id = id;
    input.label = label;
    input.quantity = "length";
    input.unit = unit;
    return input;
}

inline Input target_input() {
    Input input = length_input("target", "Target", "mm");
    input.least = 0.001;
    input.greatest = 0.3;
    input.required = true;
    input.preset = "25";
    return input;
}

inline Input tin_input() {
    Input input = length_input("tin", "Shims in the tin", "mm");
    input.shape = Shape::list;
    return input;
}

inline Input leaves_input() {
    Input input;
    input.id = "leaves";
    input.label = "Leaves";
    input.shape = Shape::table;
    input.columns = {
        {"length", "Length", Shape::number, "length", "in", true, 0},
        {"thickness", "Thickness", Shape::number, "length", "in", true, 0},
        {"radius", "Free radius", Shape::number, "length", "in", false, 0},
    };
    return input;
}

inline Input surface_input() {
    Input input;
    input.id = "surface";
    input.label = "Surface";
    input.shape = Shape::choice;
    input.choices = {"dry", "oiled", "zinc plated", "zinc flake"};
    return input;
}

inline Input thread_input() {
    Input input;
    input.id = "thread";
    input.label = "Thread";
    input.shape = Shape::text;
    return input;
}

inline Input teeth_input() {
    Input input = length_input("teeth", "Teeth", "");
    input.quantity = "count";
    return input;
}

inline Sheet some_sheet() {
    Sheet sheet;
    sheet.id = "some.sheet";
    sheet.inputs = {target_input(),  tin_input(),    leaves_input(),
                    surface_input(), thread_input(), teeth_input()};
    return sheet;
}

} // namespace fettle::calc

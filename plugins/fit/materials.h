// Materials of the parts that are pressed, shrunk or heated: stiffness, strength, expansion and
// what heat they bear. Guide values, for typed ones to override. SI units; constant data.
//
// Sources: expansion read in tables of makers and handbooks, which differ by up to 10 % (carbon
// steel 12, grey iron 10.4 to 11.4, aluminium 21.5 to 23.6, bearing bronze 18.0, yellow brass 20.3,
// copper 16.5 to 17, all e-6/K); modulus, Poisson's ratio and strength as common in textbooks, from
// memory; limits of heat: common practice and heat treatment handbooks, from memory.
#pragma once

#include "fit/words.h"

namespace fettle::fit {

struct Material {
    const char* name;
    double modulus;    // Pa
    double poisson;    // 1
    double strength;   // Pa: yield; of cast iron the tensile strength
    bool brittle;      // breaks without yielding
    double expansion;  // 1/K
    double heat_limit; // K: what it bears without losing strength or shape
    const char* why;   // what happens above
};

inline constexpr std::array<Material, 11> kMaterials = {
    {{"steel", 207e9, 0.29, 250e6, false, 12e-6, 600 + kFreezing,
      "mild steel scales and its structure changes"},
     {"steel, hardened and tempered", 207e9, 0.29, 600e6, false, 12e-6, 300 + kFreezing,
      "it is drawn beyond its temper and softens"},
     {"steel, case-hardened", 207e9, 0.29, 400e6, false, 12e-6, 150 + kFreezing,
      "the hard case was tempered no hotter and softens"},
     {"bearing steel", 207e9, 0.29, 1500e6, false, 12e-6, 120 + kFreezing,
      "rings lose hardness and grow; bearing makers permit no more"},
     {"cast iron, grey", 105e9, 0.26, 200e6, true, 11e-6, 400 + kFreezing,
      "it grows, and cracks where it is heated unevenly"},
     {"cast iron, ductile", 165e9, 0.28, 275e6, false, 11e-6, 400 + kFreezing,
      "it scales and its structure changes"},
     {"aluminium casting", 71e9, 0.33, 110e6, false, 21.5e-6, 200 + kFreezing,
      "it softens and may crack; it melts without glowing first"},
     {"aluminium, heat-treated", 71e9, 0.33, 240e6, false, 23.6e-6, 150 + kFreezing,
      "it over-ages and loses its strength for good"},
     {"bronze", 105e9, 0.34, 125e6, false, 18e-6, 250 + kFreezing,
      "it softens; tin and lead sweat out"},
     {"brass", 103e9, 0.34, 150e6, false, 20.3e-6, 250 + kFreezing,
      "it anneals; zinc begins to fume at a red heat"},
     {"copper", 117e9, 0.34, 70e6, false, 17e-6, 150 + kFreezing, "it anneals"}}};
inline constexpr auto kMaterialNames = named(kMaterials);

// The material of that name with what was typed put in place of its own.
struct MaterialTyped {
    std::string name; // blank: steel
    std::optional<double> modulus;
    std::optional<double> poisson;
    std::optional<double> strength;
    std::optional<double> expansion;
};

inline Outcome<Material> settled(const MaterialTyped& typed, const char* field) {
    const Material* found = row_named(kMaterials, typed.name);
    if (found == nullptr) return unknown_word(field, typed.name);
    Material material = *found;
    material.modulus = typed.modulus.value_or(material.modulus);
    material.poisson = typed.poisson.value_or(material.poisson);
    material.strength = typed.strength.value_or(material.strength);
    material.expansion = typed.expansion.value_or(material.expansion);
    return material;
}

} // namespace fettle::fit

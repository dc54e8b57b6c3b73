// Places on a vehicle that have rules of their own, and the caution for each. Constant data.
#pragma once

#include <array>
#include <string_view>

namespace fettle::torque {

struct Place {
    const char* name;
    const char* caution; // "" where the sheet's usual caution is enough
};

inline constexpr std::array<Place, 7> kPlaces = {
    {{"elsewhere", ""},
     {"brakes",
      "Brakes: use the maker's bolt and figure. Where neither can be had, this is for a brake "
      "engineer to check, not to follow. New split pins, tab washers and locking nuts every time; "
      "have the work inspected as the law where you live asks."},
     {"steering",
      "Steering: use the maker's bolt and figure. Castle nuts are tightened to the next slot, "
      "never slackened back to it; a new split pin every time, never a locking nut used before. "
      "Local codes may reserve this work to licensed hands."},
     {"suspension",
      "Suspension and springs: tighten bushes with the axle at its loaded height and the vehicle "
      "on stands, never on a jack. U-bolts and their nuts are fitted new and tightened again after "
      "the first load. A compressed spring can kill; maker's figures and local codes come first."},
     {"wheels",
      "Wheels: maker's figure, clean dry studs unless he says otherwise, crosswise in steps, and "
      "again after the first drive. The near side of an old lorry may have left-hand threads."},
     {"engine or gearbox",
      "Engine and gearbox: head, main and big-end bolts are often stretched by angle and used "
      "once; the maker's sequence and figure come first."},
     {"lifting or towing",
      "Lifting or towing: such joints fall under lifting and road law; use rated parts and have "
      "them certified. This sheet is no certificate."}}};

// "" for an unknown name too.
constexpr const char* place_caution(std::string_view name) {
    for (const Place& place : kPlaces) {
        if (name == place.name) return place.caution;
    }
    return "";
}

} // namespace fettle::torque

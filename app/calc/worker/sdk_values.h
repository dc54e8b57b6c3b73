// The SI values of a request laid out as the plugin contract wants them.
//
// Owns all memory that the C structs point to; neither copied nor moved once built. One thread.
#pragma once

#include "calc/sheet.h"
#include "calc/typed_inputs.h"

#include <fettle_plugin.h>

#include <vector>

namespace fettle::calc {

class SdkValues {
  public:
    // One value for each input. Throws std::length_error when they do not fit the sheet.
    SdkValues(const Sheet& sheet, std::vector<SiValue> values);
    SdkValues(const SdkValues&) = delete;
    SdkValues& operator=(const SdkValues&) = delete;

    const fettle_value* const* pointers() const { return pointers_.data(); }
    std::uint32_t count() const { return static_cast<std::uint32_t>(pointers_.size()); }

  private:
    std::vector<SiValue> owned_;
    std::vector<fettle_value> values_;
    std::vector<const fettle_value*> pointers_;
};

} // namespace fettle::calc

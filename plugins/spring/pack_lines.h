// The lines of working and the notes of spring.pack, one subject each. Within this plugin only.
#pragma once

#include "spring/pack_sheet.h"

namespace fettle::spring {

// pack_lines.cpp: working, line by line.
void tell_measures(const PackTyped& typed, PackAnswer& answer);
void tell_contact(const PackTyped& typed, PackAnswer& answer);
void tell_textbook(const PackTyped& typed, PackAnswer& answer);
void tell_friction(const PackTyped& typed, PackAnswer& answer);
void tell_nip_and_clips(const PackTyped& typed, PackAnswer& answer);
void tell_stress(const PackTyped& typed, PackAnswer& answer);

// pack_notes.cpp: judgements.
std::string reasons(const PackAnswer& answer);
void note_readings(const PackTyped& typed, PackAnswer& answer);
void note_stress(const PackTyped& typed, PackAnswer& answer);
void note_limits_of_theory(const PackTyped& typed, PackAnswer& answer);

} // namespace fettle::spring

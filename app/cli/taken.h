// How what was taken in is reported, by take-in at its end and by watch as it goes.
#pragma once

#include "cli/verb.h"
#include "desk/take_in.h"

namespace fettle::cli {

// "taken 3, already held 1, tied by tag 2, unreadable 0", and a line on proposed photos.
std::string taken_summary(const desk::TakeInReport& report);
Json to_json(const desk::TakeInReport& report);
// The fields of that JSON and what they hold, for the help texts.
inline constexpr const char* kTakenFields =
    "taken, already_held, came_back, tied_by_tag, proposed, tags_without_part, "
    "tied_by_sidecar, marks_by_sidecar,\nguessed, damaged, unreadable";
inline constexpr const char* kTakenMeaning =
    "taken, already_held, came_back\n(of those, whose file was gone or altered and is put right) "
    "and guessed (photos whose time was\nguessed) list photo numbers, tied_by_tag "
    "and proposed count photos,\nthe two by_sidecar what the XMP beside the files says; damaged "
    "and unreadable list {file, sentence}.";

// A sentence a line for files that are damaged or could not be read, and tags that are on no part.
void tell_left_out(std::ostream& err, const desk::TakeInReport& report);

// --pause, in minutes.
void add_pause(CLI::App& verb, int& minutes);

} // namespace fettle::cli

// A notebook on two machines, with its photo files: what is carried becomes one file, and such a
// file is met. The notebook's part is notebook/meeting.h, the file's photos/parcel.h; here they
// meet. Any thread; both may take long, tell how far they are and can be stopped, which leaves
// everything as it was.
#pragma once

#include "notebook/meeting.h"

#include <filesystem>
#include <functional>
#include <stop_token>
#include <string>
#include <vector>

namespace fettle::desk {

struct CarryWish {
    std::filesystem::path file;
    bool everything = false; // also what the other side is known to have
    std::string name = {};   // what this machine is to be called from now on; empty: as before
    std::function<void(std::size_t done, std::size_t total, const std::string& name)> progress = {};
    std::stop_token stop = {};
};

struct PhotoLeftOut {
    std::string name;
    std::string why;
};

struct CarryReport {
    bool everything = false;  // no state is known that both hold, or it was wished
    bool nothing_new = false; // nothing has changed since the other side was met
    int photos = 0;
    std::vector<PhotoLeftOut> left_out; // their files are not there, or not what they were
};
Result<CarryReport> carry(Notebook& notebook, const CarryWish& wish);
std::string in_words(const CarryReport& report);

struct MeetWish {
    std::filesystem::path file;
    std::function<void(std::size_t done, std::size_t total, const std::string& name)> progress = {};
    std::stop_token stop = {};
};

struct MeetReport {
    Met met;
    std::string nothing_done; // why there was nothing to do; empty: it was brought in
    int photos = 0;           // files that came
};
// Brings what was carried into an open notebook.
Result<MeetReport> meet(Notebook& notebook, const MeetWish& wish);
// The same in a folder, which may be new or empty: then the notebook begins there, and nothing is
// left of it when it fails.
Result<MeetReport> meet_in(const std::filesystem::path& folder, const MeetWish& wish);
std::string in_words(const MeetReport& report);

} // namespace fettle::desk

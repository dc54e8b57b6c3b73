// A notebook on two machines: what is carried to the other side, and how what came from there is
// brought in. Files of photos are the desk's affair (desk/two_machines.h); this room knows them by
// hash.
//
// A notebook keeps below met/ the states both sides are known to hold: the base, and those that
// were carried and not yet heard back about. What is carried is a changeset from the base to now.
// Failures: refused with what to do where sets and notebooks do not belong together; nothing is
// changed then.
#pragma once

#include "base/date.h"
#include "notebook/sides.h"
#include "store/database.h"

#include <map>
#include <set>

namespace fettle {

// What a carried set says of itself.
struct SetTold {
    std::string notebook;     // which notebook
    int side = 0;             // from which side of it
    std::string from;         // the state it starts from; empty: it holds everything
    std::string to;           // the state it leads to
    std::int64_t carried = 0; // when, as a moment of that side
    int schema = 0;
    int offered = 0; // the side a machine becomes that has no notebook yet; 0: none
    std::vector<Side> sides;
};

struct CarriedPhoto {
    std::string hash;
    std::string name; // as it came from the camera
    std::filesystem::path file;
};

struct ToCarry {
    SetTold told;
    store::Blob changes;
    std::vector<CarriedPhoto> photos; // that the other side lacks
    bool nothing_new = false;         // nothing has changed since the other side was met
};

struct CarryAsk {
    bool everything = false; // also when a state is known that both sides hold
    std::string name = {};   // what this machine is to be called; empty: as before
};
Result<ToCarry> prepare_to_carry(Notebook& notebook, const CarryAsk& ask = {});
// Before the set gets its name, for the other side may meet it from then on: its state is kept
// until that side is heard of. And the other way about, when it did not get it.
Done note_carried(Notebook& notebook, const SetTold& told);
Done forget_carried(Notebook& notebook, const SetTold& told);

// Why a set that says this of itself cannot be met here; or that it was met already, or that
// something later was (kind cancelled: nothing is wrong and nothing is to be done).
Done check_set(const Notebook& notebook, const SetTold& told);

// Why a notebook cannot begin with it in a new folder.
Done check_beginning(const SetTold& told);

// The photos of the state a set leads to, made beside the notebook.
struct ArrivingPhoto {
    std::string name;
    std::optional<Day> day;
};
class Unpacked {
  public:
    // For a blank notebook, and for one that check_set accepts the set for.
    static Result<Unpacked> unpack(const Notebook& notebook, const SetTold& told,
                                   const store::Blob& changes);
    ~Unpacked();
    Unpacked(Unpacked&& other) noexcept;
    // None when the state has no such photo.
    Result<std::optional<ArrivingPhoto>> photo(const std::string& hash) const;
    const SetTold& told() const { return told_; }
    const std::filesystem::path& state() const { return state_; }

  private:
    Unpacked(SetTold told, std::filesystem::path state);
    SetTold told_;
    std::filesystem::path state_;
};

struct Met {
    std::string with; // the other side's name
    int made = 0, changed = 0, removed = 0;
    int differences = 0;
    int without_file = 0; // photos that came without their files
    bool whole = false;   // the notebook is new here
};

// `shelved` holds, by hash, where the files that came now lie below the notebook's folder.
Result<Met> bring_in(Notebook& notebook, const Unpacked& arrival,
                     const std::map<std::string, std::filesystem::path>& shelved);

} // namespace fettle

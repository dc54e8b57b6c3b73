// What came from the other machine: the file, what it says of itself, and its changes.
#include "desk/two_machines.h"
#include "fuzz/targets.h"
#include "notebook/parts.h"
#include "notebook/record_faults.h"
#include "notebook/tasks.h"
#include "notebook/vehicles.h"
#include "notebook/whole_book.h"
#include "photos/parcel.h"
#include "temp_folder.h"

#include <nlohmann/json.hpp>

namespace fuzz {
namespace {

using namespace fettle;
namespace fs = std::filesystem;
using nlohmann::json;

template <class T>
T had(Result<T> result) {
    must(result.ok());
    return std::move(*result);
}

// Two machines that know each other. The house has written since, and what it carried is what the
// inputs are made of.
class TwoMachines {
  public:
    TwoMachines() {
        auto house = had(Notebook::create(folder_ / "house", "Drover"));
        had(add_part(house, {.tag = "A1", .name = "front spring"}));
        const auto whole = carried(house, "whole");
        garage_ = folder_ / "garage";
        had(desk::meet_in(garage_, {.file = whole}));
        {
            auto garage = had(Notebook::open(garage_, store::Access::write));
            had(add_part(garage, {.tag = "A2", .name = "rear spring"}));
            had(desk::meet(house, {.file = carried(garage, "back")}));
        }
        auto part = had(list_parts(house)).front();
        part.name = "front spring, nearside";
        must(set_part(house, part).ok());
        had(add_part(house, {.tag = "A3", .name = "shackle"}));
        (void)had(keep_task(house, {.title = "set the springs"}));
        whole_ = json::parse(had(photos::Parcel::open(whole)).told());
        const auto news = had(photos::Parcel::open(carried(house, "news")));
        news_ = json::parse(news.told());
        changes_ = news.changes();
    }

    // Where the garage's notebook stands as it was before anything was met.
    fs::path fresh_garage() const {
        const auto copy = folder_ / "met";
        fs::remove_all(copy);
        fs::copy(garage_, copy, fs::copy_options::recursive);
        return copy;
    }
    fs::path nowhere() const {
        fs::remove_all(folder_ / "met");
        return folder_ / "met";
    }
    fs::path set_file() const { return folder_ / "set"; }
    const json& whole() const { return whole_; }
    const json& news() const { return news_; }
    const store::Blob& changes() const { return changes_; } // of the news

  private:
    fs::path carried(Notebook& from, const char* name) const {
        const auto file = folder_ / name;
        had(desk::carry(from, {.file = file}));
        return file;
    }
    TempFolder folder_;
    fs::path garage_;
    json whole_, news_;
    store::Blob changes_;
};

const TwoMachines& machines() {
    static const TwoMachines two;
    return two;
}

// The real changes, which hold moments of this run, with edits: where (two bytes), how many bytes
// go (one), how many come (one), and these.
store::Blob edited(store::Blob changes, std::span<const std::byte> edits) {
    constexpr std::size_t kHead = 4;
    const auto number = [&](std::size_t at) { return std::to_integer<std::size_t>(edits[at]); };
    while (edits.size() >= kHead) {
        const auto at = std::min(changes.size(), number(0) << 8 | number(1));
        const auto gone = std::min(changes.size() - at, number(2));
        const auto come = std::min(edits.size() - kHead, number(3));
        const auto place = changes.begin() + std::ptrdiff_t(at);
        changes.insert(changes.erase(place, place + std::ptrdiff_t(gone)), edits.begin() + kHead,
                       edits.begin() + std::ptrdiff_t(kHead + come));
        edits = edits.subspan(kHead + come);
    }
    return changes;
}

void must_be_sound(const fs::path& folder) {
    const auto book = had(Notebook::open(folder, store::Access::write));
    must(notebook_tests::what_is_wrong_with(book).empty());
    (void)rule_faults(book);
}

void meet(const fs::path& folder) {
    const auto& two = machines();
    const bool was_there = fs::exists(folder);
    const auto met = desk::meet_in(folder, {.file = two.set_file()});
    if (!met) must_be_text(met.failure().sentence);
    if (met || was_there) must_be_sound(folder);
    if (!met && !was_there) must(!fs::exists(folder));
}

} // namespace

// A whole SQLite file as it stands; or "whole" or "news", what is to be changed in what such a set
// says of itself (a JSON merge patch, RFC 7396), a line's end, and its changes, those of news as
// edits of the real ones; sealed anew, so that more than the seal is tried.
void carried(Input input) {
    const auto& two = machines();
    const std::string text(reinterpret_cast<const char*>(input.data()), input.size());
    if (text.starts_with("SQLite format 3")) {
        write_file(two.set_file(), text);
        return meet(two.nowhere());
    }
    const bool news = text.starts_with("news");
    const auto end = text.find('\n');
    if (end == std::string::npos || (!news && !text.starts_with("whole"))) return;
    json told = news ? two.news() : two.whole();
    const auto patch = json::parse(text.substr(news ? 4 : 5, end - (news ? 4 : 5)), nullptr, false);
    if (patch.is_discarded()) return;
    told.merge_patch(patch);
    const auto bytes = std::as_bytes(input.subspan(end + 1));
    fs::remove(two.set_file());
    auto set = had(photos::ParcelWriter::begin(two.set_file()));
    const auto changes =
        news ? edited(two.changes(), bytes) : store::Blob(bytes.begin(), bytes.end());
    must(set.seal(told.dump(-1, ' ', false, json::error_handler_t::replace), changes).ok());
    meet(news ? two.fresh_garage() : two.nowhere());
}

} // namespace fuzz

#include "campaigns/kill_given.h"

#include "campaigns/kill_acts.h"
#include "notebook/recorded_tables.h"
#include "notebook/whole_book.h"
#include "temp_folder.h"

namespace kill_campaign {
namespace {

namespace fs = std::filesystem;
using namespace fettle;

constexpr Patience kFirstPatience = std::chrono::milliseconds(100);

// The user's records, all fields but where a machine keeps its files, and the moments of acts.
std::string records_of(const fs::path& folder) {
    (void)sound_content(folder);
    const Notebook book = opened(folder);
    auto text = book.read([](store::Database& database) {
        std::string all;
        for (const auto& table : recorded_tables()) {
            std::string sql = "SELECT '" + std::string(table.name) + "'";
            for (const auto& column : notebook_tests::detail::column_of(
                     database, "SELECT name FROM pragma_table_info('" + std::string(table.name) +
                                   "') ORDER BY cid"))
                if (!field_of(table, column).empty() && !column.ends_with("_moment"))
                    sql += " || '|' || quote(" + column + ")";
            for (const auto& line : notebook_tests::detail::column_of(
                     database, sql + " AS line FROM " + std::string(table.name) + " ORDER BY line"))
                all += line + '\n';
        }
        return all;
    });
    must_hold(text.ok() && text->size() > 10, "the records cannot be read");
    return *text;
}

void copy_folder(const fs::path& from, const fs::path& to) {
    fs::remove_all(to);
    fs::copy(from, to, fs::copy_options::recursive);
}

} // namespace

namespace {
std::string kind_of(const std::vector<std::string>& verb) {
    return verb[0] == "data" ? verb[0] + ' ' + verb[1] : verb[0];
}
} // namespace

bool GivenOut::kill_verb(const fs::path& book, const Verb& verb) {
    const auto longest = took_.try_emplace(kind_of(verb), kFirstPatience).first->second;
    Victim victim([&] { return become_verb(book, verb); });
    const Patience patience(random_() % static_cast<std::uint64_t>(longest.count() * 11 / 10));
    const bool went = victim.kill_after(patience);
    must_hold(went || !victim.ended_by_itself(), kind_of(verb) + " is refused");
    ++killed_[kind_of(verb)];
    acknowledged_[kind_of(verb)] += went;
    return went;
}

void GivenOut::must_go(const fs::path& book, const Verb& verb) {
    const auto begun = std::chrono::steady_clock::now();
    must_hold(verb_goes(book, verb), kind_of(verb) + " is refused");
    took_[kind_of(verb)] =
        std::chrono::duration_cast<Patience>(std::chrono::steady_clock::now() - begun);
}

void GivenOut::act(const fs::path& book) {
    Notebook open = opened(book);
    for (auto left = random_() % 12; left > 0; --left)
        act_at_random(open, random_);
}

// Beside the notebooks nothing of a run that was ended is left by the one after it.
void GivenOut::must_be_tidy() const {
    for (const auto& entry : fs::directory_iterator(folder_)) {
        const auto name = entry.path().filename().string();
        must_hold(name.find("half") == std::string::npos, name + " is left");
    }
    for (const char* machine : {"garage", "house"})
        for (const auto& entry : fs::directory_iterator(at(machine) / "met")) {
            const auto name = entry.path().filename().string();
            must_hold(name.ends_with(".db"), machine + ("/met/" + name) + " is left");
        }
}

void GivenOut::begin(const fs::path& book) {
    for (const char* name : {"house", "second", "backup.zip", "set", "back"})
        fs::remove_all(at(name));
    copy_folder(book, at("garage"));
    act(at("garage"));
    must_go(at("garage"), {"carry", at("set").string()});
    must_go(at("house"), {"meet", at("set").string()});
    house_is_next_ = true;
}

void GivenOut::kill_one(const fs::path& book) {
    switch (random_() % 7) {
    case 0:
        kill_a_backup(book);
        break;
    case 1:
        kill_a_restore(book);
        break;
    case 2:
        kill_data_out(book);
        break;
    case 3:
        kill_data_in(book);
        break;
    case 4:
        kill_a_carry();
        break;
    case 5:
        kill_a_meet();
        break;
    default:
        kill_a_beginning();
    }
    must_be_tidy();
}

// There is none, the one before, or a whole one.
void GivenOut::kill_a_backup(const fs::path& book) {
    const auto file = at("backup.zip"), again = at("restored");
    const auto before = file_text(file);
    const Verb verb = {"backup", file.string()};
    const bool told = kill_verb(book, verb);
    const auto after = file_text(file);
    must_hold(!told || after != before, "an acknowledged backup is not there");
    if (!after.empty() && after != before) {
        must_go(book, {"restore", file.string(), again.string()});
        must_hold(sound_content(again) == sound_content(book), "a backup is not whole");
        must_be_clean(again);
        fs::remove_all(again);
    }
    must_go(book, verb);
}

void GivenOut::kill_a_restore(const fs::path& book) {
    const auto file = at("backup.zip"), again = at("restored");
    must_go(book, {"backup", file.string()});
    const Verb verb = {"restore", file.string(), again.string()};
    const bool told = kill_verb(book, verb);
    must_hold(!told || fs::exists(again), "an acknowledged restoring is not there");
    if (!fs::exists(again)) must_go(book, verb);
    must_hold(sound_content(again) == sound_content(book), "a restored notebook is not whole");
    must_be_clean(again);
    fs::remove_all(again);
    must_go(book, verb); // which clears up, where the killed one had given it its name
    fs::remove_all(again);
}

void GivenOut::kill_data_out(const fs::path& book) {
    const auto data = at("data"), again = at("made of data");
    const Verb verb = {"data", "out", data.string(), "--photos"};
    const bool told = kill_verb(book, verb);
    must_hold(!told || fs::exists(data), "acknowledged data are not there");
    if (!fs::exists(data)) must_go(book, verb);
    must_go(book, {"data", "in", data.string(), again.string()});
    must_hold(records_of(again) == records_of(book), "data given out are not whole");
    must_be_clean(again);
    fs::remove_all(again);
    fs::remove_all(data);
}

void GivenOut::kill_data_in(const fs::path& book) {
    const auto data = at("data"), again = at("made of data");
    must_go(book, {"data", "out", data.string(), "--photos"});
    const Verb verb = {"data", "in", data.string(), again.string()};
    const bool told = kill_verb(book, verb);
    must_hold(!told || fs::exists(again), "an acknowledged notebook is not there");
    if (!fs::exists(again)) must_go(book, verb);
    must_hold(records_of(again) == records_of(book), "data taken in are not whole");
    must_be_clean(again);
    fs::remove_all(again);
    fs::remove_all(data);
}

// What is at the set's place can be met, and carrying again brings all that is new.
void GivenOut::kill_a_carry() {
    const auto from = at(house_is_next_ ? "house" : "garage"),
               to = at(house_is_next_ ? "garage" : "house"), set = at("back");
    act(from);
    act(to);
    const auto held = records_of(from);
    fs::remove(set);
    const Verb verb = {"carry", set.string()};
    const bool told = kill_verb(from, verb);
    must_hold(records_of(from) == held, "carrying has changed the records");
    must_hold(!told || fs::exists(set), "an acknowledged set is not there");
    const bool met = fs::exists(set) && random_() % 2 == 0;
    if (met) must_go(to, {"meet", set.string()});
    must_go(from, verb);
    must_go(to, {"meet", set.string()});
    // And the way back, so that both hold the same.
    must_go(to, verb);
    must_go(from, {"meet", set.string()});
    must_hold(records_of(from) == records_of(to), "the two machines differ after meeting");
    for (const auto& book : {from, to})
        must_be_clean(book);
    house_is_next_ = !house_is_next_;
}

void GivenOut::kill_a_meet() {
    const auto from = at(house_is_next_ ? "house" : "garage"),
               to = at(house_is_next_ ? "garage" : "house"), set = at("set"), model = at("second");
    act(from);
    act(to);
    must_go(from, {"carry", set.string()});
    copy_folder(to, model);
    const auto before = records_of(to);
    const Verb verb = {"meet", set.string()};
    must_go(model, verb);
    const auto wanted = records_of(model);
    const bool told = kill_verb(to, verb);
    const auto found = records_of(to);
    must_hold(found == wanted || (!told && found == before), "a meeting is half done");
    must_go(to, verb);
    must_hold(records_of(to) == wanted, "a meeting that was ended is not completed");
    must_be_clean(to);
    fs::remove_all(model);
    must_go(to, {"carry", set.string()}); // which clears up
    must_go(from, verb);
    house_is_next_ = !house_is_next_;
}

void GivenOut::kill_a_beginning() {
    const auto set = at("all"), second = at("second");
    must_go(at("garage"), {"carry", set.string(), "--everything"});
    const Verb verb = {"meet", set.string()};
    const bool told = kill_verb(second, verb);
    must_hold(!told || fs::exists(second), "an acknowledged notebook is not there");
    must_go(second, verb); // begins, or says that it was met already
    must_hold(records_of(second) == records_of(at("garage")), "a beginning is not whole");
    must_be_clean(second);
    fs::remove_all(second);
    must_go(second, verb); // which clears up
    fs::remove_all(second);
    fs::remove(set);
}

std::string GivenOut::counted() const {
    std::string text;
    for (const auto& [verb, kills] : killed_)
        text += (text.empty() ? "" : ", ") + std::to_string(kills) + ' ' + verb + " with " +
                std::to_string(acknowledged_.at(verb)) + " done before";
    return text;
}

} // namespace kill_campaign

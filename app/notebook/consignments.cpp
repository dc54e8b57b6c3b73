#include "notebook/consignments_within.h"
#include "notebook/people.h"
#include "notebook/rules.h"

#include <array>

namespace fettle {
namespace {

constexpr std::string_view kHead =
    "SELECT g.id, g.inward, ifnull(c.name, ''), g.purpose, g.destroys_finish, g.carrier, "
    "       g.carrier_number, g.value_minor, g.currency, g.sent_on, g.due_on, g.settled_on, "
    "       g.settled_how, g.note "
    "FROM consignments g LEFT JOIN contacts c ON c.id = g.contact_id ";
constexpr std::string_view kItems =
    "SELECT i.part_id, a.tag, a.name, a.quantity, i.quantity, i.condition_out, i.value_minor, "
    "       i.currency, i.back, i.back_on, i.condition_back, i.settled_how, i.note "
    "FROM consignment_items i JOIN parts a ON a.id = i.part_id "
    "WHERE i.consignment_id = ? ORDER BY i.id";

std::optional<Money> money_at(const store::Statement& row, int column) {
    if (row.is_null(column)) return std::nullopt;
    return Money{row.get<std::int64_t>(column), row.get<std::string>(column + 1)};
}

std::optional<Day> day_at(const store::Statement& row, int column) {
    if (row.is_null(column)) return std::nullopt;
    auto day = parse_day(row.get<std::string>(column));
    return day ? std::optional(*day) : std::nullopt;
}

Consignment head_of(const store::Statement& row) {
    Consignment head;
    head.id = row.get<ConsignmentId>(0);
    head.inward = row.get<bool>(1);
    head.firm = row.get<std::string>(2);
    head.purpose = row.get<std::string>(3);
    head.destroys_finish = row.get<bool>(4);
    head.carrier = row.get<std::string>(5);
    head.carrier_number = row.get<std::string>(6);
    head.value = money_at(row, 7);
    head.sent_on = day_at(row, 9);
    head.due_on = day_at(row, 10);
    head.settled_on = day_at(row, 11);
    head.settled_how = row.get<std::string>(12);
    head.note = row.get<std::string>(13);
    return head;
}

ConsignmentItem item_of(const store::Statement& row) {
    ConsignmentItem item;
    item.part = row.get<PartId>(0);
    item.tag = row.get<std::string>(1);
    item.name = row.get<std::string>(2);
    item.lot = row.get<int>(3);
    item.quantity = row.get<int>(4);
    item.condition_out = stored_word<Condition>(row, 5);
    item.value = money_at(row, 6);
    item.back = row.get<int>(8);
    item.back_on = day_at(row, 9);
    if (!row.is_null(10)) item.condition_back = stored_word<Condition>(row, 10);
    item.settled_how = row.get<std::string>(11);
    item.note = row.get<std::string>(12);
    return item;
}

void fill(store::Database& database, Consignment& consignment) {
    consignment.items = all_rows(database.query(kItems, consignment.id), item_of);
    consignment.papers =
        all_rows(database.query("SELECT photo_id FROM consignment_photos WHERE consignment_id = ? "
                                "ORDER BY id",
                                consignment.id),
                 [](const store::Statement& row) { return row.get<PhotoId>(0); });
}

int days_between(Day from, Day to) {
    return static_cast<int>((std::chrono::sys_days(to) - std::chrono::sys_days(from)).count());
}

std::string day_count(int days) {
    return days == 1 ? "1 day" : std::to_string(days) + " days";
}

Done check_head(const Consignment& head) {
    if (auto filled = require_text(head.inward ? "seller" : "firm", head.firm); !filled)
        return filled;
    if (auto filled = require_text("purpose", head.purpose); !filled) return filled;
    if (head.sent_on && head.due_on && *head.due_on < *head.sent_on)
        return Failure{FailureKind::invalid,
                       "The due day " + to_words(*head.due_on) + " is before the day of sending, " +
                           to_words(*head.sent_on) + ": a later one is accepted."};
    return done();
}

// The day of sending may not pass a day on which something came.
Done check_against_items(const Consignment& head, const Consignment& known) {
    for (const auto& item : known.items)
        if (item.back_on && (!head.sent_on || *item.back_on < *head.sent_on))
            return Failure{FailureKind::refused,
                           item.tag + " came on " + to_words(*item.back_on) +
                               ": the day of sending must be that day or before."};
    return done();
}

std::optional<std::string> iso_of(const std::optional<Day>& day) {
    return day ? std::optional(to_iso(*day)) : std::nullopt;
}

// In which order consignments are shown.
auto rank_of(const Consignment& consignment, Day today) {
    const auto state = consignment.state(today);
    const bool over = state == ConsignmentState::over;
    const auto day = over ? consignment.settled_on : consignment.due_on;
    const int days = day ? days_between(*day, today) : 0;
    // Overdue the longest first; of what is over, the last.
    return std::tuple(over, state != ConsignmentState::packed, !over && !day, over ? days : -days,
                      -consignment.id.value);
}

} // namespace

ConsignmentState Consignment::state(Day today) const {
    const bool awaits = std::ranges::any_of(items, &ConsignmentItem::awaited);
    if (!sent_on || items.empty()) return ConsignmentState::packed;
    if (!awaits) return ConsignmentState::over;
    return due_on && *due_on < today ? ConsignmentState::overdue : ConsignmentState::out;
}

const ConsignmentItem* Consignment::item(PartId part) const {
    const auto found = std::ranges::find(items, part, &ConsignmentItem::part);
    return found == items.end() ? nullptr : &*found;
}

std::string standing_words(const Consignment& consignment, Day today) {
    const auto state = consignment.state(today);
    if (state == ConsignmentState::packed)
        return consignment.inward ? "not on its way yet" : "packed, not sent yet";
    if (state == ConsignmentState::over) {
        const bool all = std::ranges::all_of(
            consignment.items, [](const ConsignmentItem& item) { return item.missing() == 0; });
        const std::string said = !all ? "settled" : consignment.inward ? "all here" : "all back";
        return consignment.settled_on ? said + " " + to_words(*consignment.settled_on) : said;
    }
    const int since = days_between(*consignment.sent_on, today);
    std::string said = (consignment.inward ? "on its way " : "out ") +
                       (since > 0 ? day_count(since) : std::string("since today"));
    if (since < 0) said = "leaves " + to_words(*consignment.sent_on);
    if (!consignment.due_on) return said;
    const int left = days_between(today, *consignment.due_on);
    if (left < 0) return said + ", overdue " + day_count(-left);
    if (left == 0) return said + ", due today";
    return said + ", due in " + day_count(left);
}

std::string pieces_words(const ConsignmentItem& item) {
    if (item.lot == 1 && item.quantity == 1) return {};
    return std::to_string(item.quantity) + " of " +
           std::to_string(std::max(item.lot, item.quantity));
}

std::string standing_words(const ConsignmentItem& item, bool inward) {
    const bool several = item.quantity > 1;
    const std::string of = " of " + std::to_string(item.quantity);
    if (item.missing() == 0)
        return (inward ? "here " : "back ") + (item.back_on ? to_words(*item.back_on) : "");
    const std::string rest = several ? std::to_string(item.missing()) + of + " " : std::string();
    if (!item.settled_how.empty()) return "missing, settled: " + rest + item.settled_how;
    if (item.back > 0) return rest + "missing";
    return inward ? "on its way" : "out";
}

const std::vector<std::string>& usual_purposes() {
    static const std::vector<std::string> purposes = {
        "blasting",  "stripping in a bath", "plating", "painting",
        "machining", "repairing",           "welding", "measuring"};
    return purposes;
}

bool takes_finish_off(std::string_view purpose) {
    static constexpr std::array kTelling = {"blast",  "strip",  "plat",  "galvan", "pickl", "paint",
                                            "polish", "powder", "chrom", "grind",  "acid",  "bath"};
    std::string plain(purpose);
    std::ranges::transform(plain, plain.begin(), [](char letter) {
        return static_cast<char>(std::tolower(static_cast<unsigned char>(letter)));
    });
    return std::ranges::any_of(
        kTelling, [&](const char* word) { return plain.find(word) != std::string::npos; });
}

Result<Consignment> stored_consignment(store::Database& database, ConsignmentId id) {
    auto row = database.query(std::string(kHead) + "WHERE g.id IS ?", id);
    if (!row.next()) return nothing_called("consignment", std::to_string(id.value));
    auto consignment = head_of(row);
    fill(database, consignment);
    return consignment;
}

Result<Consignment> consignment_by_id(const Notebook& notebook, ConsignmentId id) {
    auto read =
        notebook.read([&](store::Database& database) { return stored_consignment(database, id); });
    if (!read) return read.failure();
    return std::move(*read);
}

Result<std::vector<Consignment>> list_consignments(const Notebook& notebook, Day today) {
    return notebook.read([&](store::Database& database) {
        auto all = all_rows(database.query(kHead), head_of);
        for (auto& consignment : all)
            fill(database, consignment);
        std::ranges::stable_sort(
            all, {}, [&](const Consignment& consignment) { return rank_of(consignment, today); });
        return all;
    });
}

Result<ConsignmentId> keep_consignment(Notebook& notebook, const Consignment& consignment) {
    const std::string words =
        (consignment.id ? "changed " + consignment_name(consignment.id)
                        : std::string(consignment.inward ? "noted a consignment from "
                                                         : "made a consignment for ") +
                              consignment.firm);
    return notebook.act(words, [&](store::Database& database) -> Result<ConsignmentId> {
        if (auto fine = check_head(consignment); !fine) return fine.failure();
        auto id = consignment.id;
        if (id) {
            auto known = stored_consignment(database, id);
            if (!known) return known.failure();
            if (auto fine = check_against_items(consignment, *known); !fine) return fine.failure();
        } else {
            id = {database.insert(
                "INSERT INTO consignments(id, purpose) VALUES (next_id('consignments'), '')")};
        }
        std::optional<std::int64_t> minor;
        std::optional<std::string> currency;
        if (consignment.value)
            minor = consignment.value->minor, currency = consignment.value->currency;
        database.run("UPDATE consignments SET inward = ?, contact_id = ?, purpose = ?, "
                     "destroys_finish = ?, carrier = ?, carrier_number = ?, value_minor = ?, "
                     "currency = ?, sent_on = ?, due_on = ?, note = ? WHERE id = ?",
                     consignment.inward, contact_named(database, consignment.firm),
                     consignment.purpose, consignment.destroys_finish, consignment.carrier,
                     consignment.carrier_number, minor, currency, iso_of(consignment.sent_on),
                     iso_of(consignment.due_on), consignment.note, id);
        return id;
    });
}

Done send_consignment(Notebook& notebook, ConsignmentId id, Day on) {
    return notebook.act("sent " + consignment_name(id), [&](store::Database& database) -> Done {
        auto known = stored_consignment(database, id);
        if (!known) return known.failure();
        if (known->items.empty())
            return Failure{FailureKind::refused, "Nothing is on consignment " +
                                                     std::to_string(id.value) +
                                                     " yet: put a part on first."};
        known->sent_on = on;
        if (auto fine = check_head(*known); !fine) return fine;
        if (auto fine = check_against_items(*known, *known); !fine) return fine;
        database.run("UPDATE consignments SET sent_on = ? WHERE id = ?", to_iso(on), id);
        return done();
    });
}

Done add_paper(Notebook& notebook, ConsignmentId id, PhotoId photo) {
    const auto number = std::to_string(photo.value);
    return notebook.act(
        "put photo " + number + " to the papers of " + consignment_name(id),
        [&](store::Database& database) -> Done {
            auto known = stored_consignment(database, id);
            if (!known) return known.failure();
            if (!database.query("SELECT 1 FROM photos WHERE id IS ?", photo).next())
                return nothing_called("photo", number);
            database.run(
                "INSERT OR IGNORE INTO consignment_photos"
                "(id, consignment_id, photo_id) VALUES (next_id('consignment_photos'), ?, ?)",
                id, photo);
            return done();
        });
}

Done drop_paper(Notebook& notebook, ConsignmentId id, PhotoId photo) {
    return notebook.act("took photo " + std::to_string(photo.value) + " from the papers of " +
                            consignment_name(id),
                        [&](store::Database& database) -> Done {
                            database.run("DELETE FROM consignment_photos "
                                         "WHERE consignment_id = ? AND photo_id = ?",
                                         id, photo);
                            return done();
                        });
}

} // namespace fettle

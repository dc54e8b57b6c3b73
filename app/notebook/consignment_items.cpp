// Items of consignments: put on, taken off, ticked off, settled; and where pieces are meanwhile.
#include "base/text.h"
#include "notebook/condition_steps.h"
#include "notebook/consignments_within.h"
#include "notebook/evidence.h"
#include "notebook/parts.h"
#include "notebook/rules.h"
#include "notebook/stock_within.h"

namespace fettle {
namespace {

std::string number_of(ConsignmentId id) {
    return std::to_string(id.value);
}

std::string tags_on(const Consignment& consignment) {
    std::vector<std::string> tags;
    for (const auto& item : consignment.items)
        tags.push_back(item.tag);
    return tags.empty() ? "nothing" : join(tags, ", ");
}

Failure not_on_it(const Consignment& consignment, const std::string& tag) {
    return {FailureKind::not_found, tag + " is not on consignment " + number_of(consignment.id) +
                                        ": it holds " + tags_on(consignment) + "."};
}

// The item of a part, or a sentence with its tag.
Result<ConsignmentItem> item_on(const Notebook& notebook, const Consignment& consignment,
                                PartId part) {
    if (const auto* item = consignment.item(part)) return *item;
    auto known = part_by_id(notebook, part);
    if (!known) return known.failure();
    return not_on_it(consignment, known->tag);
}

Done may_put_on(store::Database& database, const Consignment& to, const Part& part,
                const PutOn& wish) {
    const auto number = number_of(to.id);
    if (to.state(today()) == ConsignmentState::over)
        return Failure{FailureKind::refused,
                       "Consignment " + number + " is over: make a new one for " + part.tag + "."};
    if (to.item(part.id))
        return Failure{FailureKind::refused, part.tag + " is on consignment " + number +
                                                 " already: take it off first to change it."};
    if (const auto holder = holder_of(database, part.id); holder.part)
        return Failure{FailureKind::refused, part.tag + " is within " + holder.tag + ": send " +
                                                 holder.tag + ", or split it first."};
    if (part.split_on)
        return Failure{FailureKind::refused,
                       part.tag + " lies in its pieces: send those, or put it together first."};
    const int away = pieces_away(database, part.id), left = part.left() - away;
    if (part.used == part.quantity)
        return Failure{FailureKind::refused, part.tag + " cannot go: all of it is used."};
    if (wish.pieces < 0 || wish.pieces > part.quantity)
        return Failure{FailureKind::invalid, std::to_string(wish.pieces) + " pieces of " +
                                                 part.tag + " cannot go: it holds " +
                                                 std::to_string(part.quantity) + "."};
    if (left > 0 && wish.pieces <= left) return done();
    auto where = database.query("SELECT consignment_id FROM consignment_items "
                                "WHERE part_id = ? AND back < quantity ORDER BY id DESC",
                                part.id);
    const std::string other = where.next() ? std::to_string(where.get<std::int64_t>(0)) : "?";
    if (part.quantity == 1)
        return Failure{FailureKind::refused, part.tag + " is out on consignment " + other +
                                                 ": receive it there first, then it can go again."};
    if (away == 0)
        return Failure{FailureKind::refused, std::to_string(part.used) + " of " +
                                                 std::to_string(part.quantity) + " pieces of " +
                                                 part.tag + " are used: at most " +
                                                 std::to_string(left) + " can go."};
    return Failure{FailureKind::refused,
                   std::to_string(away) + " of " + std::to_string(part.quantity) + " pieces of " +
                       part.tag + " are out, on consignment " + other + " and maybe others: " +
                       (left > 0 ? "at most " + std::to_string(left) + " can go."
                                 : std::string("none is left to go."))};
}

std::vector<std::string> evidence_wanted_within(store::Database& database, const Consignment& to,
                                                PartId part) {
    if (to.inward || !to.destroys_finish) return {};
    return evidence_missing_within(database, part);
}

Failure evidence_first(const Part& part, const Consignment& to,
                       const std::vector<std::string>& missing) {
    return {FailureKind::refused, part.tag + " is not photographed yet for " + to.purpose +
                                      ", which takes the old surface off: " + join(missing, "; ") +
                                      "."};
}

Result<CameBack> checked(const Consignment& from, const ConsignmentItem& item, int pieces, Day on) {
    if (!from.sent_on)
        return Failure{FailureKind::refused, "Consignment " + number_of(from.id) +
                                                 " is not sent yet: nothing of it can "
                                                 "have come back."};
    if (on < *from.sent_on)
        return Failure{FailureKind::invalid, "The day " + to_words(on) +
                                                 " is before the day of sending, " +
                                                 to_words(*from.sent_on) + "."};
    if (item.missing() == 0)
        return Failure{FailureKind::refused,
                       item.tag + " is back already" +
                           (item.back_on ? ", since " + to_words(*item.back_on) : "") + "."};
    if (pieces < 0 || pieces > item.missing())
        return Failure{FailureKind::invalid,
                       std::to_string(pieces) + " pieces of " + item.tag + " cannot have come: " +
                           std::to_string(item.missing()) + " of " + std::to_string(item.quantity) +
                           (item.missing() == 1 ? " is" : " are") + " still missing."};
    return CameBack{item.part, pieces == 0 ? item.missing() : pieces};
}

void tick_off(store::Database& database, ConsignmentId id, const ConsignmentItem& item, int pieces,
              const Receipt& receipt) {
    const auto condition =
        receipt.condition.value_or(item.condition_back.value_or(item.condition_out));
    database.run("UPDATE consignment_items SET back = back + ?, back_on = ?, condition_back = ?, "
                 "settled_how = CASE WHEN back + ? = quantity THEN '' ELSE settled_how END "
                 "WHERE consignment_id = ? AND part_id = ?",
                 pieces, to_iso(receipt.on), word(condition), pieces, id, item.part);
    if (!receipt.condition) return;
    // All pieces at hand came with it: then it is the part's condition.
    auto at_hand =
        database.query("SELECT quantity - used, condition FROM parts WHERE id = ?", item.part);
    at_hand.next();
    if (at_hand.get<int>(0) - pieces_away(database, item.part) > item.back + pieces) return;
    if (at_hand.get<std::string>(1) == word(condition)) return;
    database.run("UPDATE parts SET condition = ? WHERE id = ?", word(condition), item.part);
    note_condition(database, item.part, condition, receipt.on);
}

std::vector<Away> away_by_itself(store::Database& database, PartId part) {
    return all_rows(
        database.query(std::string(kItemsAway) + "AND i.part_id = ? ORDER BY g.id", part), away_of);
}

} // namespace

const std::string_view kItemsAway =
    "SELECT i.part_id, g.id, g.inward, ifnull(c.name, ''), g.purpose, i.quantity - i.back, "
    "       g.sent_on, g.due_on, i.settled_how "
    "FROM consignment_items i JOIN consignments g ON g.id = i.consignment_id "
    "LEFT JOIN contacts c ON c.id = g.contact_id WHERE i.back < i.quantity ";

Away away_of(const store::Statement& row) {
    Away away;
    away.consignment = row.get<ConsignmentId>(1);
    away.inward = row.get<bool>(2);
    away.firm = row.get<std::string>(3);
    away.purpose = row.get<std::string>(4);
    away.pieces = row.get<int>(5);
    if (auto day = parse_day(row.get<std::string>(6))) away.since = *day;
    if (auto day = parse_day(row.get<std::string>(7))) away.due = *day;
    away.settled_how = row.get<std::string>(8);
    return away;
}

int pieces_away(store::Database& database, PartId part) {
    auto sum = database.query("SELECT ifnull(sum(quantity - back), 0) FROM consignment_items "
                              "WHERE part_id = ?",
                              part);
    sum.next();
    return sum.get<int>(0);
}

std::string pieces_of(int pieces, const std::string& tag) {
    return pieces == 1 ? tag : std::to_string(pieces) + " pieces of " + tag;
}

void note_end(store::Database& database, ConsignmentId id, Day on) {
    database.run(
        "UPDATE consignments SET settled_on = CASE WHEN sent_on IS NOT NULL AND NOT EXISTS "
        "(SELECT 1 FROM consignment_items i WHERE i.consignment_id = ?1 AND i.back < i.quantity "
        " AND i.settled_how = '') THEN ifnull(settled_on, ?2) END WHERE id = ?1",
        id, to_iso(on));
}

Done put_on(Notebook& notebook, ConsignmentId id, const PutOn& wish) {
    auto part = part_by_id(notebook, wish.part);
    if (!part) return part.failure();
    return notebook.act(
        "put " + part->tag + " on " + consignment_name(id), [&](store::Database& database) -> Done {
            auto to = stored_consignment(database, id);
            if (!to) return to.failure();
            if (auto fine = may_put_on(database, *to, *part, wish); !fine) return fine;
            std::string note = wish.note;
            const auto missing = evidence_wanted_within(database, *to, part->id);
            if (!missing.empty()) {
                if (trim(wish.without_evidence).empty()) return evidence_first(*part, *to, missing);
                note +=
                    (note.empty() ? "" : " ") + ("Sent without evidence: " + wish.without_evidence);
            }
            const int pieces =
                wish.pieces > 0 ? wish.pieces : part->left() - pieces_away(database, part->id);
            std::optional<std::int64_t> minor;
            std::optional<std::string> currency;
            if (wish.value) minor = wish.value->minor, currency = wish.value->currency;
            database.run("INSERT INTO consignment_items(id, consignment_id, part_id, quantity, "
                         "condition_out, value_minor, currency, note) VALUES "
                         "(next_id('consignment_items'), ?, ?, ?, ?, ?, ?, ?)",
                         id, part->id, pieces, word(part->condition), minor, currency, note);
            return done();
        });
}

Result<std::vector<std::string>> evidence_wanted(const Notebook& notebook, ConsignmentId id,
                                                 PartId part) {
    auto to = consignment_by_id(notebook, id);
    if (!to) return to.failure();
    return notebook.read(
        [&](store::Database& database) { return evidence_wanted_within(database, *to, part); });
}

Done take_off(Notebook& notebook, ConsignmentId id, PartId part) {
    auto from = consignment_by_id(notebook, id);
    if (!from) return from.failure();
    auto item = item_on(notebook, *from, part);
    if (!item) return item.failure();
    if (item->back > 0)
        return Failure{FailureKind::refused, pieces_of(item->back, item->tag) +
                                                 " came back with consignment " + number_of(id) +
                                                 ": it cannot be taken off any more."};
    return notebook.act("took " + item->tag + " off " + consignment_name(id),
                        [&](store::Database& database) -> Done {
                            database.run("DELETE FROM consignment_items "
                                         "WHERE consignment_id = ? AND part_id = ?",
                                         id, part);
                            note_end(database, id, today());
                            return done();
                        });
}

Done receive(Notebook& notebook, ConsignmentId id, const Receipt& receipt) {
    auto from = consignment_by_id(notebook, id);
    if (!from) return from.failure();
    std::vector<std::pair<ConsignmentItem, int>> came;
    std::vector<std::string> tags;
    for (const auto& [part, pieces] : receipt.items) {
        auto item = item_on(notebook, *from, part);
        if (!item) return item.failure();
        auto fine = checked(*from, *item, pieces, receipt.on);
        if (!fine) return fine.failure();
        const auto twice = [&](const auto& other) { return other.first.part == part; };
        if (std::ranges::any_of(came, twice))
            return Failure{FailureKind::invalid, item->tag + " is named twice: once is enough."};
        tags.push_back(pieces_of(fine->pieces, item->tag));
        came.emplace_back(std::move(*item), fine->pieces);
    }
    if (came.empty())
        return Failure{FailureKind::invalid, "Nothing was named that came: name the tags."};
    return notebook.act("received " + join(tags, ", ") + " of " + consignment_name(id),
                        [&](store::Database& database) -> Done {
                            for (const auto& [item, pieces] : came)
                                tick_off(database, id, item, pieces, receipt);
                            note_end(database, id, receipt.on);
                            if (receipt.paper) return add_paper(notebook, id, receipt.paper);
                            return done();
                        });
}

Done settle_item(Notebook& notebook, ConsignmentId id, PartId part, const std::string& how,
                 Day on) {
    auto from = consignment_by_id(notebook, id);
    if (!from) return from.failure();
    auto item = item_on(notebook, *from, part);
    if (!item) return item.failure();
    if (auto said = require_text("reason why " + item->tag + " is no longer waited for", how);
        !said)
        return said;
    if (auto fine = checked(*from, *item, 0, on); !fine) return fine.failure();
    return notebook.act("settled " + pieces_of(item->missing(), item->tag) + " of " +
                            consignment_name(id) + ": " + how,
                        [&](store::Database& database) -> Done {
                            database.run("UPDATE consignment_items SET settled_how = ? "
                                         "WHERE consignment_id = ? AND part_id = ?",
                                         how, id, part);
                            note_end(database, id, on);
                            return done();
                        });
}

Done settle_consignment(Notebook& notebook, ConsignmentId id, const std::string& how, Day on) {
    auto from = consignment_by_id(notebook, id);
    if (!from) return from.failure();
    return notebook.act(
        "settled " + consignment_name(id) + ": " + how, [&](store::Database& database) -> Done {
            bool any = false;
            for (const auto& item : from->items) {
                if (!item.awaited()) continue;
                any = true;
                if (auto settled = settle_item(notebook, id, item.part, how, on); !settled)
                    return settled;
            }
            if (!any)
                return Failure{FailureKind::refused,
                               "Nothing is missing of consignment " + number_of(id) + "."};
            database.run("UPDATE consignments SET settled_how = ? WHERE id = ?", how, id);
            return done();
        });
}

Result<std::vector<Away>> whereabouts(const Notebook& notebook, PartId part) {
    return notebook.read([&](store::Database& database) {
        auto all = away_by_itself(database, part);
        for (auto at = holder_of(database, part); at.part; at = holder_of(database, at.part))
            for (auto& away : away_by_itself(database, at.part)) {
                away.within = at.tag;
                all.push_back(std::move(away));
            }
        return all;
    });
}

std::string away_words(const Away& away, const Day& today) {
    const std::string whom = (away.within.empty() ? "" : "within " + away.within + " ") +
                             (away.inward ? "on its way from " : "with ") + away.firm;
    if (!away.settled_how.empty())
        return "gone, " + whom + " for " + away.purpose + ": " + away.settled_how;
    if (!away.since) return "packed for " + away.firm + ", for " + away.purpose;
    std::string said = whom + " since " + to_words(*away.since) + " for " + away.purpose;
    if (!away.due) return said;
    return said + (*away.due < today ? ", overdue since " : ", due ") + to_words(*away.due);
}

Result<std::vector<PartId>> awaited_in_photo(const Notebook& notebook, ConsignmentId id,
                                             PhotoId photo) {
    auto from = consignment_by_id(notebook, id);
    if (!from) return from.failure();
    return notebook.read([&](store::Database& database) {
        auto read = all_rows(database.query("SELECT a.id FROM tag_reads t JOIN parts a "
                                            "ON a.tag = t.tag WHERE t.photo_id IS ? ORDER BY t.id",
                                            photo),
                             [](const store::Statement& row) { return row.get<PartId>(0); });
        std::erase_if(read, [&](PartId part) {
            const auto* item = from->item(part);
            return !item || item->missing() == 0;
        });
        return read;
    });
}

Result<std::vector<SeenTags>> photos_of_arrival(const Notebook& notebook, ConsignmentId id) {
    auto from = consignment_by_id(notebook, id);
    if (!from) return from.failure();
    if (!from->sent_on) return std::vector<SeenTags>();
    auto photos = notebook.read([&](store::Database& database) {
        return all_rows(
            database.query(
                "SELECT DISTINCT f.id FROM tag_reads t JOIN photos f ON f.id = t.photo_id "
                "JOIN parts a ON a.tag = t.tag JOIN consignment_items i "
                "ON i.part_id = a.id WHERE i.consignment_id = ? AND i.back < i.quantity "
                "AND substr(f.taken, 1, 10) >= ? ORDER BY f.at DESC, f.id DESC",
                id, to_iso(*from->sent_on)),
            [](const store::Statement& row) { return row.get<PhotoId>(0); });
    });
    if (!photos) return photos.failure();
    std::vector<SeenTags> seen;
    for (const auto photo : *photos) {
        auto parts = awaited_in_photo(notebook, id, photo);
        if (!parts) return parts.failure();
        if (!parts->empty()) seen.push_back({photo, std::move(*parts)});
    }
    return seen;
}

} // namespace fettle

#include "notebook/part_life.h"

#include "base/marked_text.h"
#include "base/text.h"
#include "notebook/condition_steps.h"
#include "notebook/entries.h"
#include "notebook/measurements.h"
#include "notebook/parts.h"
#include "notebook/rules.h"

#include <map>

namespace fettle {
namespace {

// The lines of one part, gathered kind by kind.
class Life {
  public:
    Life(const Notebook& notebook, const Part& part) : notebook_(notebook), part_(part) {}

    Result<std::vector<LifeLine>> tell() {
        for (const auto what :
             {&Life::steps, &Life::consignments, &Life::measurements, &Life::entries, &Life::costs})
            if (auto told = (this->*what)(); !told) return told.failure();
        came();
        std::ranges::stable_sort(lines_, {}, &LifeLine::day);
        return std::move(lines_);
    }

  private:
    // First in the list, so that it stands first on its day.
    void came() {
        LifeLine line{.day = part_.acquired.value_or(Day{}), .kind = "came", .cost = part_.cost};
        if (!part_.acquired && part_.from.empty() && !part_.cost) return;
        if (!part_.acquired) line.day = lines_.empty() ? today() : first_day();
        std::vector<std::string> said;
        if (!part_.from.empty()) said.push_back("from " + part_.from);
        if (part_.origin != Origin::unknown) said.emplace_back(word(part_.origin));
        if (part_.quantity > 1) said.push_back(std::to_string(part_.quantity) + " pieces");
        if (part_.cost) said.push_back("for " + to_words(*part_.cost));
        line.words = said.empty() ? "to the notebook" : join(said, ", ");
        lines_.insert(lines_.begin(), std::move(line));
    }

    Day first_day() const { return std::ranges::min(lines_, {}, &LifeLine::day).day; }

    Done steps() {
        auto steps = list_condition_steps(notebook_, part_.id);
        if (!steps) return steps.failure();
        for (const auto& [condition, on] : *steps)
            lines_.push_back(
                {.day = on, .kind = "condition", .words = std::string(word(condition))});
        return done();
    }

    Done consignments() {
        return notebook_.read([&](store::Database& database) {
            auto rows = database.query(
                "SELECT g.id, g.inward, ifnull(c.name, ''), g.purpose, i.quantity, i.back, "
                "       g.sent_on, i.back_on, i.settled_how, g.settled_on "
                "FROM consignment_items i JOIN consignments g ON g.id = i.consignment_id "
                "LEFT JOIN contacts c ON c.id = g.contact_id WHERE i.part_id = ? ORDER BY g.id",
                part_.id);
            while (rows.next())
                consignment(rows);
            return Nothing{};
        });
    }

    void consignment(const store::Statement& row) {
        const auto id = row.get<ConsignmentId>(0);
        const bool inward = row.get<bool>(1);
        const auto firm = row.get<std::string>(2);
        const int pieces = row.get<int>(4), back = row.get<int>(5);
        const std::string of = part_.quantity > 1 ? std::to_string(pieces) + " of " +
                                                        std::to_string(part_.quantity) + " "
                                                  : std::string();
        const auto add = [&](const std::string& day, const char* kind, const std::string& words) {
            if (auto on = parse_day(day))
                lines_.push_back({.day = *on, .kind = kind, .words = words, .consignment = id});
        };
        add(row.get<std::string>(6), inward ? "coming" : "out",
            of + (inward ? "on its way from " : "to ") + firm + " for " + row.get<std::string>(3));
        const std::string came = pieces > 1
                                     ? std::to_string(back) + " of " + std::to_string(pieces) + " "
                                     : std::string();
        if (back > 0) add(row.get<std::string>(7), "back", came + "came from " + firm);
        if (back < pieces && !row.get<std::string>(8).empty())
            add(row.get<std::string>(9), "settled",
                std::to_string(pieces - back) + " with " + firm + ": " + row.get<std::string>(8));
    }

    Done measurements() {
        auto all = list_measurements(notebook_, part_.id);
        if (!all) return all.failure();
        for (const auto& one : *all)
            lines_.push_back(
                {.day = one.day, .kind = "measured", .words = one.feature + ": " + one.verdict});
        return done();
    }

    Done entries() {
        auto all = list_entries(notebook_, {.part = part_.id});
        if (!all) return all.failure();
        for (const auto& entry : *all) {
            lines_.push_back({.day = entry.day,
                              .kind = "work",
                              .words = first_line_of_marked(entry.text),
                              .entry = entry.id,
                              .hours = entry.hours});
        }
        return done();
    }

    Done costs() {
        return notebook_.read([&](store::Database& database) {
            auto rows = database.query("SELECT on_date, amount_minor, currency, what FROM costs "
                                       "WHERE part_id = ? ORDER BY on_date, id",
                                       part_.id);
            while (rows.next())
                if (auto on = parse_day(rows.get<std::string>(0))) {
                    const Money paid{rows.get<std::int64_t>(1), rows.get<std::string>(2)};
                    lines_.push_back({.day = *on,
                                      .kind = "cost",
                                      .words = rows.get<std::string>(3) + ", " + to_words(paid),
                                      .cost = paid});
                }
            return Nothing{};
        });
    }

    const Notebook& notebook_;
    const Part& part_;
    std::vector<LifeLine> lines_;
};

} // namespace

Result<std::vector<LifeLine>> life_of(const Notebook& notebook, PartId id) {
    auto part = part_by_id(notebook, id);
    if (!part) return part.failure();
    return Life(notebook, *part).tell();
}

Result<std::vector<Money>> costs_of_part(const Notebook& notebook, PartId id) {
    auto life = life_of(notebook, id);
    if (!life) return life.failure();
    std::map<std::string, std::int64_t> sums;
    for (const auto& line : *life)
        if (line.cost) sums[line.cost->currency] += line.cost->minor;
    std::vector<Money> all;
    for (const auto& [currency, minor] : sums)
        all.push_back({minor, currency});
    return all;
}

} // namespace fettle

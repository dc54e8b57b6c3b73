#include "notebook/written_rows.h"

#include "base/text.h"

#include <algorithm>
#include <iterator>
#include <set>

namespace fettle {
namespace {

std::optional<double> as_number(const Cell& cell) {
    if (const auto* whole = std::get_if<std::int64_t>(&cell)) return static_cast<double>(*whole);
    if (const auto* number = std::get_if<double>(&cell)) return *number;
    return std::nullopt;
}

std::string key_text(const store::RowKey& key) {
    const auto* number = std::get_if<std::int64_t>(&key);
    return number ? std::to_string(*number) : safe_utf8(std::get<std::string>(key));
}

// Goes through the acts from the newest back: what a row was given last must stand there, and what
// it was given before does not count. So an act is looked at by itself, and of the rows only those
// are remembered whose older changes are still to come, not the whole record.
class Comparing {
  public:
    Comparing(store::Database& database, std::size_t most) : database_(database), most_(most) {}

    std::vector<std::string> all() {
        std::vector<std::string> faults;
        if (auto damaged = read_history()) return {*damaged};
        auto acts = database_.query(
            "SELECT changes FROM history WHERE undone = 0 AND id > ? ORDER BY id DESC", met_);
        while (told_ < most_ && acts.next())
            store::each_written(acts.get<store::Blob>(0), [&](const store::WrittenRow& written) {
                const auto held = held_.find(written.table);
                if (held != held_.end()) look_at(held->second, written);
            });
        for (auto& [name, held] : held_) {
            std::ranges::move(held.faults, std::back_inserter(faults));
            if (held.missing > 0 && told_ < most_) {
                faults.push_back(std::to_string(held.missing) + " of the rows written into " +
                                 name + " are not there.");
                ++told_;
            }
        }
        return faults;
    }

  private:
    // What newer acts have told of a row.
    struct Newer {
        bool is_settled = false;   // nothing older counts
        std::vector<bool> written; // by column
    };
    struct Held {
        store::Table table;
        store::RowFinder rows;
        std::set<store::RowKey> removed; // at any time: the key may have had an older row
        std::map<store::RowKey, Newer> newer;
        std::size_t missing = 0;
        std::vector<std::string> faults;
    };

    // Whether all changes can be read, how far back they reach, and what they removed; what is
    // wrong with them, if anything.
    std::optional<std::string> read_history() {
        for (auto& name : store::table_names(database_)) {
            store::Table table = store::table_of(database_, name);
            if (table.key.empty()) continue; // its changes are not recorded
            store::RowFinder rows(database_, table);
            held_.emplace(std::move(name), Held{std::move(table), std::move(rows), {}, {}, 0, {}});
        }
        auto acts = database_.query(
            "SELECT id, words, met, changes FROM history WHERE undone = 0 ORDER BY id");
        while (acts.next()) {
            if (acts.get<bool>(2)) {
                met_ = acts.get<std::int64_t>(0);
                continue;
            }
            try {
                store::each_change(acts.get<store::Blob>(3), [&](const store::Change& change) {
                    const auto held = held_.find(change.table);
                    if (change.kind == store::Change::Kind::removed && held != held_.end())
                        held->second.removed.insert(change.key);
                });
            } catch (const store::Trouble&) {
                return "The changes kept of \"" + safe_utf8(acts.get<std::string>(1)) +
                       "\" are damaged: that act cannot be taken back.";
            }
        }
        return std::nullopt;
    }

    void look_at(Held& held, const store::WrittenRow& written) {
        Newer& newer = held.newer[written.key];
        if (!newer.is_settled) compare(held, written, newer);
        if (written.kind != store::Change::Kind::added) return;
        newer.is_settled = true;
        if (!held.removed.contains(written.key)) held.newer.erase(written.key);
    }

    void compare(Held& held, const store::WrittenRow& written, Newer& newer) {
        const bool is_newest = newer.written.empty();
        const auto cells = held.rows.find(written.values);
        if (written.kind == store::Change::Kind::removed) {
            newer.is_settled = true;
            if (is_newest && cells)
                tell(held, place(held, written) + " was removed and stands there again.");
            return;
        }
        if (!cells) {
            newer.is_settled = true;
            ++held.missing;
            return;
        }
        newer.written.resize(std::max(newer.written.size(), written.values.size()));
        for (std::size_t at = 0; at < std::min(written.values.size(), cells->size()); ++at) {
            if (!written.values[at] || newer.written[at]) continue;
            newer.written[at] = true;
            if (!same_value(*written.values[at], (*cells)[at]))
                tell(held, place(held, written) + ": its " + held.table.columns[at].name +
                               " is not what was written last.");
        }
    }

    static std::string place(const Held& held, const store::WrittenRow& written) {
        return "Row " + key_text(written.key) + " of " + held.table.name;
    }

    void tell(Held& held, std::string sentence) {
        if (told_ >= most_) return;
        held.faults.push_back(std::move(sentence));
        ++told_;
    }

    store::Database& database_;
    std::size_t most_;
    std::size_t told_ = 0;
    std::int64_t met_ = 0; // the newest meeting: the changes before it are not all kept
    std::map<std::string, Held, std::less<>> held_;
};

} // namespace

void WrittenRows::take(const store::Blob& changes) {
    store::each_written(changes, [&](const store::WrittenRow& written) {
        Row& row = tables_[written.table][written.key];
        if (written.kind == store::Change::Kind::removed) {
            row = {.is_removed = true};
            return;
        }
        if (written.kind == store::Change::Kind::added) row = {.is_whole = true};
        row.is_removed = false;
        row.values.resize(std::max(row.values.size(), written.values.size()));
        for (std::size_t at = 0; at < written.values.size(); ++at)
            if (written.values[at]) row.values[at] = written.values[at];
    });
}

bool same_value(const Cell& one, const Cell& other) {
    if (one == other) return true;
    const auto first = as_number(one), second = as_number(other);
    return first && second && *first == *second;
}

std::vector<std::string> faults_against_changes(store::Database& database, std::size_t most) {
    return Comparing(database, most).all();
}

} // namespace fettle

#include "notebook/written_rows.h"

#include "base/text.h"

#include <algorithm>

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

class Comparing {
  public:
    Comparing(store::Database& database, std::size_t most) : database_(database), most_(most) {}

    std::vector<std::string> all() {
        if (read_history())
            for (const auto& [name, rows] : written_.tables())
                if (known_.contains(name)) compare(store::table_of(database_, name), rows);
        return std::move(faults_);
    }

  private:
    bool read_history() {
        for (auto& name : store::table_names(database_))
            known_.emplace(std::move(name), true);
        auto lines =
            database_.query("SELECT words, met, changes FROM history WHERE undone = 0 ORDER BY id");
        while (lines.next()) {
            if (lines.get<bool>(1)) {
                written_.forget();
                continue;
            }
            try {
                written_.take(lines.get<store::Blob>(2));
            } catch (const store::Trouble&) {
                tell("The changes kept of \"" + safe_utf8(lines.get<std::string>(0)) +
                     "\" are damaged: that act cannot be taken back.");
                return false;
            }
        }
        return true;
    }

    void compare(const store::Table& table, const WrittenRows::Table& rows) {
        std::size_t met = 0; // of those that should be there
        store::each_row(database_, table, [&](std::span<const Cell> cells) {
            const auto found = rows.find(store::row_key(table, cells));
            if (found == rows.end()) return true;
            if (found->second.is_removed)
                tell(place(table, found->first) + " was removed and stands there again.");
            else
                ++met;
            const auto& values = found->second.values;
            for (std::size_t at = 0; at < std::min(values.size(), cells.size()); ++at)
                if (values[at] && !same_value(*values[at], cells[at]))
                    tell(place(table, found->first) + ": its " + table.columns[at].name +
                         " is not what was written last.");
            return faults_.size() < most_;
        });
        if (faults_.size() >= most_) return;
        const auto expected = static_cast<std::size_t>(
            std::ranges::count_if(rows, [](const auto& row) { return !row.second.is_removed; }));
        if (met < expected)
            tell(std::to_string(expected - met) + " of the rows written into " + table.name +
                 " are not there.");
    }

    static std::string place(const store::Table& table, const store::RowKey& key) {
        return "Row " + key_text(key) + " of " + table.name;
    }

    void tell(std::string sentence) {
        if (faults_.size() < most_) faults_.push_back(std::move(sentence));
    }

    store::Database& database_;
    std::size_t most_;
    std::map<std::string, bool, std::less<>> known_;
    WrittenRows written_;
    std::vector<std::string> faults_;
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

#include "desk/book_within.h"
#include "notebook/costs.h"
#include "notebook/credits.h"

#include <algorithm>

namespace fettle::desk {
namespace {

// How the row stands to its estimates, currency by currency.
std::string against(const CostRow& row) {
    std::vector<std::string> all;
    for (const auto& estimate : row.estimate.amounts())
        all.push_back(
            against_words(row.spent.in(estimate.currency), estimate.minor, estimate.currency));
    return join(all, ", ");
}

TableOf by_group(const Notebook& notebook) {
    const auto table = book_must(cost_table(notebook, CostBy::group));
    TableOf rows{"", {"Group", "Spent", "Reckoned with", ""}, {}, {}, {5, 3, 3, 3}};
    for (const auto& row : table.rows)
        rows.rows.push_back({row.label, to_words(row.spent), to_words(row.estimate), against(row)});
    if (!rows.rows.empty())
        rows.rows.push_back({"all", to_words(table.spent), to_words(table.estimate), ""});
    return rows;
}

TableOf by(const Notebook& notebook, CostBy what, const std::string& heading) {
    TableOf rows{"", {heading, "Spent"}, {}, {}, {7, 3}};
    for (const auto& row : book_must(cost_table(notebook, what)).rows)
        rows.rows.push_back({row.label, to_words(row.spent)});
    return rows;
}

} // namespace

Chapter costs_chapter(const BookSources& sources) {
    Chapter chapter{"costs", "Costs", {}};
    const auto add = [&chapter](const std::string& title, TableOf table) {
        if (table.rows.empty()) return;
        chapter.blocks.push_back(Title{2, title});
        chapter.blocks.push_back(std::move(table));
    };
    add("By group", by_group(sources.notebook));
    add("By month", by(sources.notebook, CostBy::month, "Month"));
    add("By part", by(sources.notebook, CostBy::part, "Part"));
    return chapter;
}

Chapter credits_chapter(const BookSources& sources) {
    Chapter chapter{"credits", "Credits", {}};
    std::optional<Did> under;
    TableOf table{"", {}, {}, {}, {4, 9}};
    const auto end_table = [&] {
        if (!table.rows.empty()) chapter.blocks.push_back(table);
        table.rows.clear();
    };
    for (const auto& credit : book_must(credits(sources.notebook))) {
        if (under != credit.under) {
            end_table();
            chapter.blocks.push_back(Title{2, "Those who " + std::string(word(credit.under))});
            under = credit.under;
        }
        table.rows.push_back({credit.name, join(credit.deeds, "; ")});
    }
    end_table();
    return chapter;
}

} // namespace fettle::desk

#include "notebook/record_rows.h"

#include "store/soundness.h"

namespace fettle {

Done in_one_state(const Notebook& notebook, const std::function<Done()>& body) {
    auto told = notebook.read([&](store::Database& database) {
        const store::OneState state(database);
        return body();
    });
    return told ? *told : Done(told.failure());
}

Result<std::int64_t> count_rows(const Notebook& notebook, const TableSaid& table) {
    return notebook.read([&](store::Database& database) {
        return store::row_count(database, store::table_of(database, std::string(table.name)));
    });
}

Done each_row(const Notebook& notebook, const TableSaid& table,
              const std::function<bool(std::span<const Cell>)>& take) {
    return notebook.read([&](store::Database& database) {
        store::each_row(database, store::table_of(database, std::string(table.name)), take);
        return Nothing{};
    });
}

} // namespace fettle

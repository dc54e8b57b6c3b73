#include "desk/data_in.h"

#include "base/half_folder.h"
#include "base/text.h"
#include "desk/data_rows.h"
#include "desk/outside_photos.h"
#include "notebook/making.h"
#include "notebook/photos.h"
#include "notebook/record_faults.h"
#include "notebook/row_rules.h"

#include <algorithm>

namespace fettle::desk {
namespace {

namespace fs = std::filesystem;

Failure stopped() {
    return {FailureKind::cancelled, "Stopped; nothing was made."};
}

Failure refused(std::string sentence) {
    return {FailureKind::invalid, std::move(sentence)};
}

const Cell& cell_in(const DataRow& row, const std::string& column) {
    static const Cell nothing;
    const auto found = std::ranges::find(row.columns, column);
    return found == row.columns.end() ? nothing
                                      : row.cells[std::size_t(found - row.columns.begin())];
}

class TakingIn {
  public:
    TakingIn(const fs::path& data, NotebookInMaking& making, const DataInWish& wish)
        : data_(data), making_(making), wish_(wish) {}

    Done all(const DataHead& head) {
        if (auto known = only_known_files(); !known) return known;
        for (const auto& [table, count] : head.rows)
            total_ += static_cast<std::size_t>(std::max<std::int64_t>(count, 0));
        for (const auto& said : described_tables()) {
            const std::string name(said.name);
            const auto table = making_.table(name);
            if (!table) continue; // younger than these data
            const auto expected = head.rows.find(name);
            if (auto taken = one(said, *table, expected == head.rows.end() ? 0 : expected->second);
                !taken)
                return taken;
        }
        auto missing = making_.missing();
        if (!missing) return missing.failure();
        return *missing ? missing_record(**missing) : done();
    }

    std::size_t rows = 0;
    std::vector<std::string> notices;

  private:
    Done only_known_files() {
        const auto folder = data_folder(wish_.form);
        std::error_code error;
        fs::directory_iterator files(data_ / folder, error);
        if (error)
            return Failure{FailureKind::not_found, "There is no folder " +
                                                       safe_utf8((data_ / folder).native()) +
                                                       ": it holds a file for each table."};
        for (const auto& entry : files) {
            const auto file = entry.path().filename();
            const bool is_data = file.extension() == data_file(wish_.form, "x").extension();
            if (is_data && !making_.table(file.stem().string()))
                return refused("The file " + safe_utf8((folder / file).native()) +
                               " belongs to no table: accepted are those that README.md beside "
                               "it names.");
        }
        return done();
    }

    Done one(const TableSaid& said, const store::Table& table, std::int64_t expected) {
        const auto file = data_ / data_file(wish_.form, table.name);
        std::error_code error;
        if (!fs::exists(file, error)) {
            if (expected == 0) return done();
            return Failure{FailureKind::not_found, "The file " + safe_utf8(file.native()) +
                                                       " is missing: it held " +
                                                       std::to_string(expected) + " rows."};
        }
        auto source = DataRows::open(data_, wish_.form, table);
        if (!source) return source.failure();
        std::int64_t count = 0;
        for (;;) {
            if (wish_.stop.stop_requested()) return stopped();
            auto row = (*source)->next();
            if (!row) return row.failure();
            if (!*row) break;
            if (auto put = put_row(said, table, **row); !put) return put;
            ++count;
            ++rows;
            if (wish_.progress && rows % 256 == 0)
                wish_.progress(rows, std::max(total_, rows), table.name);
        }
        if (count != expected)
            notices.push_back(data_file(wish_.form, table.name).string() + " has " +
                              std::to_string(count) + " rows; " + std::to_string(expected) +
                              " were written out.");
        return done();
    }

    Done put_row(const TableSaid& said, const store::Table& table, const DataRow& row) {
        const auto place = [&](const std::string& column) {
            return place_in_data(wish_.form, table.name, row.number, column,
                                 shown(cell_in(row, column)));
        };
        if (auto fault = row_fault(&said, row.columns, row.cells))
            return refused(place(fault->column) + " is not accepted here; accepted is " +
                           fault->accepted + '.');
        auto breach = making_.put(table, row.columns, row.cells);
        if (!breach) return breach.failure();
        if (!*breach) return done();
        const auto& [rule, columns, words] = **breach;
        if (rule == store::Breach::Rule::doubled && !columns.empty())
            return refused(place(columns.front()) + " stands in another row already" +
                           (columns.size() > 1 ? " with the same " + columns.back() : "") +
                           "; accepted is what no other row has.");
        return refused(place_in_data(wish_.form, table.name, row.number) +
                       " does not keep a rule of its table (" + words +
                       "); accepted is what README.md says of its columns.");
    }

    // Where it stands is found by reading that file once more.
    Done missing_record(const MissingRecord& missing) {
        const auto table = making_.table(missing.table);
        auto source = DataRows::open(data_, wish_.form, *table);
        if (!source) return source.failure();
        for (;;) {
            auto row = (*source)->next();
            if (!row) return row.failure();
            if (*row && cell_in(**row, missing.column) != Cell(missing.number)) continue;
            return refused(place_in_data(wish_.form, missing.table, *row ? (*row)->number : 0,
                                         missing.column, std::to_string(missing.number)) +
                           " names no row of " + missing.refers_to +
                           "; accepted is the id of one "
                           "in " +
                           data_file(wish_.form, missing.refers_to).string() + '.');
        }
    }

    const fs::path& data_;
    NotebookInMaking& making_;
    const DataInWish& wish_;
    std::size_t total_ = 0;
};

Done bring_photos(const fs::path& data, const fs::path& folder, const DataInWish& wish,
                  DataInReport& report) {
    auto book = Notebook::open(folder, store::Access::write); // which brings it up, too
    if (!book) return book.failure();
    if (const auto faults = rule_faults(*book); !faults.empty())
        return refused("The data do not make a notebook: " + faults.front());
    auto brought = bring_photo_files(*book, data / kDataPhotos, {wish.stop, wish.progress});
    if (!brought) return brought.failure();
    report.photos = brought->brought;
    report.missing_photos = std::move(brought->missing);
    return done();
}

} // namespace

Result<DataInReport> data_in(const fs::path& data, const fs::path& notebook,
                             const DataInWish& wish) {
    auto head = read_head(data);
    if (!head) return head.failure();
    auto half = HalfFolder::start(notebook);
    if (!half) return half.failure();
    DataInReport report{.notebook = half->wanted()};
    {
        auto making = NotebookInMaking::begin(half->path(), head->schema);
        if (!making) return making.failure();
        TakingIn taking(data, *making, wish);
        if (auto taken = taking.all(*head); !taken) return taken.failure();
        if (auto finished = making->finish(); !finished) return finished.failure();
        report.rows = taking.rows;
        report.notices = std::move(taking.notices);
    }
    if (auto brought = bring_photos(data, half->path(), wish, report); !brought)
        return brought.failure();
    if (auto settled = half->settle(); !settled) return settled.failure();
    return report;
}

} // namespace fettle::desk

#include "desk/data_out.h"

#include "base/csv.h"
#include "base/date.h"
#include "base/half_folder.h"
#include "desk/data_files.h"
#include "desk/data_values.h"
#include "notebook/schema/schema.h"

#include <cmath>
#include <fstream>

namespace fettle::desk {
namespace {

namespace fs = std::filesystem;

Failure stopped() {
    return {FailureKind::cancelled, "Stopped; nothing was written."};
}

Failure not_written(const fs::path& file) {
    return {FailureKind::io,
            "The file " + file.string() + " cannot be written: is there room on the disk?"};
}

// A table's two files while its rows come.
class TableOut {
  public:
    TableOut(const fs::path& folder, const TableSaid& table)
        : table_(table),
          jsonl_(folder / data_file(DataForm::json_lines, table.name), std::ios::binary),
          csv_(folder / data_file(DataForm::csv, table.name), std::ios::binary) {
        std::vector<std::string> names;
        for (const auto& column : table.columns)
            names.emplace_back(column.name);
        csv_ << csv_row(names);
    }

    // Fails for a number that no file can hold.
    Done put(std::span<const Cell> cells) {
        DataJson object = DataJson::object();
        std::vector<std::string> fields;
        for (std::size_t at = 0; at < cells.size(); ++at) {
            const std::string column(table_.columns[at].name);
            const auto* number = std::get_if<double>(&cells[at]);
            if (number && !std::isfinite(*number))
                return Failure{FailureKind::damaged, "A row of " + std::string(table_.name) +
                                                         " has an infinite " + column +
                                                         ": change it to a number first."};
            object[column] = to_json(cells[at]);
            fields.push_back(to_csv(cells[at]));
        }
        jsonl_ << object.dump() << '\n';
        csv_ << csv_row(fields);
        return done();
    }

    bool close() {
        jsonl_.close();
        csv_.close();
        return !jsonl_.fail() && !csv_.fail();
    }

  private:
    const TableSaid& table_;
    std::ofstream jsonl_, csv_;
};

// All tables, as they stand at one moment.
class Writing {
  public:
    Writing(const Notebook& notebook, const fs::path& folder, const DataOutWish& wish)
        : notebook_(notebook), folder_(folder), wish_(wish) {}

    Done all() {
        for (const auto& table : described_tables()) {
            auto count = count_rows(notebook_, table);
            if (!count) return count.failure();
            head.rows[std::string(table.name)] = *count;
            total_ += static_cast<std::size_t>(*count);
        }
        for (const auto& table : described_tables())
            if (auto written = one(table); !written) return written;
        return done();
    }

    DataHead head{kNewestSchema, to_iso(now()), {}};
    std::size_t rows = 0;

  private:
    Done one(const TableSaid& table) {
        TableOut out(folder_, table);
        Done put = done();
        auto read = each_row(notebook_, table, [&](std::span<const Cell> cells) {
            put = wish_.stop.stop_requested() ? Done(stopped()) : out.put(cells);
            ++rows;
            if (wish_.progress && rows % 256 == 0)
                wish_.progress(rows, total_, std::string(table.name));
            return put.ok();
        });
        if (!read || !put) return read ? put : read;
        if (!out.close()) return not_written(folder_ / data_file(DataForm::csv, table.name));
        return done();
    }

    const Notebook& notebook_;
    const fs::path& folder_;
    const DataOutWish& wish_;
    std::size_t total_ = 0;
};

Done write_text(const fs::path& file, const std::string& text) {
    std::ofstream out(file, std::ios::binary);
    out << text;
    out.close();
    return out.fail() ? Done(not_written(file)) : done();
}

} // namespace

Result<DataOutReport> data_out(const fs::path& notebook, const fs::path& folder,
                               const DataOutWish& wish) {
    auto book = Notebook::open(notebook, store::Access::read);
    if (!book) return book.failure();
    auto half = HalfFolder::start(folder);
    if (!half) return half.failure();
    std::error_code error;
    for (const auto form : {DataForm::json_lines, DataForm::csv})
        fs::create_directory(half->path() / data_folder(form), error);

    DataOutReport report{.folder = half->wanted()};
    auto written = in_one_state(*book, [&]() -> Done {
        Writing writing(*book, half->path(), wish);
        if (auto all = writing.all(); !all) return all;
        report.tables = writing.head.rows.size();
        report.rows = writing.rows;
        if (auto head = write_text(half->path() / kDataHead, head_text(writing.head)); !head)
            return head;
        return write_text(half->path() / "README.md", data_readme());
    });
    if (!written) return written.failure();
    if (wish.photos) {
        auto photos =
            export_photos(*book, half->path() / kDataPhotos,
                          {.with_place = true, .stop = wish.stop, .progress = wish.progress});
        if (!photos) return photos.failure();
        if (photos->stopped) return stopped();
        report.photos = std::move(*photos);
    }
    if (auto settled = half->settle(); !settled) return settled.failure();
    return report;
}

} // namespace fettle::desk

// What the two halves of merging share: the joined state under work, its stamps and differences.
// For merge*.cpp only.
#pragma once

#include "notebook/merge.h"
#include "notebook/recorded_tables.h"

namespace fettle {

class MergeGround {
  public:
    explicit MergeGround(const MergeAsk& ask);

    const TableShape& shape(const std::string& table) const { return shapes_.at(table); }
    bool there(const std::string& schema, const std::string& table, const store::RowKey& row);
    // Of a field, or of the whole record where the field has none of its own.
    Stamp stamp(const std::string& schema, const std::string& table, const store::RowKey& row,
                const std::string& field);
    void put_stamp(const std::string& table, const store::RowKey& row, const std::string& field,
                   const Stamp& stamp, bool gone = false);
    // The record and its stamps as another state has them.
    void copy_row(const std::string& from, const std::string& table, const store::RowKey& row);
    // The record goes; `stamp` says by whom.
    void drop_row(const std::string& table, const store::RowKey& row, const Stamp& stamp);
    bool became_another(const std::string& table, const store::RowKey& row);
    // The columns of a field: one, or those that change with it.
    std::vector<std::string> columns(const std::string& table, const std::string& field) const;
    std::vector<std::string> fields(const std::string& table) const; // besides the key
    // JSON of a field's values; empty when there is no such record.
    std::string values(const std::string& schema, const std::string& table,
                       const store::RowKey& row, const std::string& field);
    // Sets a field to what stands in another record, of the same table.
    void copy_field(const std::string& from, const store::RowKey& source, const std::string& table,
                    const store::RowKey& row, const std::string& field);

    struct Told {
        std::string table;
        store::RowKey row;
        std::string field, kind;
        Stamp other_stamp, stands_stamp;
        std::string other, stands;
    };
    void note_difference(const Told& told);
    std::int64_t next_id(const std::string& table);

    store::Database db; // main: the joined state; mine, theirs, base: as they were
    const MergeAsk& ask;
    Merged report;

  private:
    std::map<std::string, TableShape> shapes_;
    bool has_base_ = false;
};

// What breaks a rule of the notebook in the joined state: doubles, references to what is gone,
// circles.
void mend(MergeGround& ground);

} // namespace fettle

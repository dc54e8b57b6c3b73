#include "notebook/measurements.h"

#include "base/text.h"
#include "notebook/parts.h"
#include "notebook/rules.h"

#include <nlohmann/json.hpp>

namespace fettle {
namespace {

using TypedTexts = std::map<std::string, std::string>;

Measurement measurement_of(const store::Statement& row) {
    Measurement one{.id = row.get<MeasurementId>(0),
                    .part = row.get<PartId>(1),
                    .feature = row.get<std::string>(2),
                    .sheet = row.get<std::string>(4),
                    .plugin_version = row.get<std::string>(5),
                    .answer = row.get<std::string>(6),
                    .verdict = row.get<std::string>(7),
                    .note = row.get<std::string>(8)};
    const auto day = parse_day(row.get<std::string>(3));
    if (!day) throw store::Trouble(day.failure());
    one.day = *day;
    return one;
}

TypedTexts texts_of(const std::string& stored) {
    const auto json = nlohmann::json::parse(stored, nullptr, false);
    TypedTexts texts;
    if (!json.is_object()) return texts;
    for (const auto& [input, text] : json.items())
        if (text.is_string()) texts[input] = text.get<std::string>();
    return texts;
}

std::string stored_texts(const TypedTexts& texts) {
    return nlohmann::json(texts).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

} // namespace

Result<MeasurementId> keep_measurement(Notebook& notebook, const Measurement& measurement) {
    const std::string feature(trim(measurement.feature));
    if (auto filled = require_text("feature that was measured", feature); !filled)
        return filled.failure();
    const auto part = part_by_id(notebook, measurement.part);
    if (!part) return part.failure();
    const auto& one = measurement;
    return notebook.act(
        "measured " + feature + " of " + part->tag,
        [&](store::Database& database) -> Result<MeasurementId> {
            if (!one.id)
                return MeasurementId{
                    database.insert("INSERT INTO measurements(id, part_id, feature, on_date, "
                                    "sheet, plugin_version, "
                                    "answer, verdict, note) VALUES (next_id('measurements'), ?, ?, "
                                    "?, ?, ?, ?, ?, ?)",
                                    one.part, feature, to_iso(one.day), one.sheet,
                                    one.plugin_version, one.answer, one.verdict, one.note)};
            database.run("UPDATE measurements SET part_id = ?, feature = ?, on_date = ?, "
                         "sheet = ?, plugin_version = ?, answer = ?, verdict = ?, note = ? "
                         "WHERE id = ?",
                         one.part, feature, to_iso(one.day), one.sheet, one.plugin_version,
                         one.answer, one.verdict, one.note, one.id);
            if (database.rows_changed() == 0)
                return nothing_called("measurement", std::to_string(one.id.value));
            return one.id;
        });
}

Done remove_measurement(Notebook& notebook, MeasurementId id) {
    return notebook.act("removed a measurement", [&](store::Database& database) -> Done {
        database.run("DELETE FROM measurements WHERE id = ?", id);
        if (database.rows_changed() == 0)
            return nothing_called("measurement", std::to_string(id.value));
        return done();
    });
}

Result<std::vector<Measurement>> list_measurements(const Notebook& notebook, PartId part) {
    return notebook.read([&](store::Database& database) {
        return all_rows(
            database.query("SELECT id, part_id, feature, on_date, sheet, plugin_version, answer, "
                           "verdict, note FROM measurements WHERE part_id = ? "
                           "ORDER BY feature COLLATE NOCASE, on_date DESC, id DESC",
                           part),
            measurement_of);
    });
}

Done keep_feature(Notebook& notebook, const PositionFeature& feature) {
    const std::string name(trim(feature.feature));
    if (auto filled = require_text("feature", name); !filled) return filled;
    return notebook.act("wrote the limits of " + name, [&](store::Database& database) -> Done {
        if (!database.query("SELECT 1 FROM positions WHERE id = ?", feature.position).next())
            return nothing_called("position", std::to_string(feature.position.value));
        const std::string typed = stored_texts(feature.typed);
        database.run("UPDATE position_features SET typed = ? WHERE position_id = ? "
                     "AND feature = ? COLLATE NOCASE",
                     typed, feature.position, name);
        if (database.rows_changed() == 0)
            database.run("INSERT INTO position_features(id, position_id, feature, typed) VALUES "
                         "(next_id('position_features'), ?, ?, ?)",
                         feature.position, name, typed);
        return done();
    });
}

Done remove_feature(Notebook& notebook, PositionId position, const std::string& feature) {
    const std::string name(trim(feature));
    return notebook.act("removed the limits of " + name, [&](store::Database& database) -> Done {
        database.run("DELETE FROM position_features WHERE position_id = ? AND "
                     "feature = ? COLLATE NOCASE",
                     position, name);
        if (database.rows_changed() == 0) return nothing_called("feature of this position", name);
        return done();
    });
}

Result<std::vector<PositionFeature>> list_features(const Notebook& notebook, PositionId position) {
    return notebook.read([&](store::Database& database) {
        return all_rows(database.query("SELECT position_id, feature, typed FROM position_features "
                                       "WHERE position_id = ? ORDER BY feature COLLATE NOCASE",
                                       position),
                        [](const store::Statement& row) {
                            return PositionFeature{row.get<PositionId>(0), row.get<std::string>(1),
                                                   texts_of(row.get<std::string>(2))};
                        });
    });
}

} // namespace fettle

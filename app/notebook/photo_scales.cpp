#include "notebook/photo_scales.h"

#include "notebook/photos.h"
#include "notebook/rules.h"

#include <nlohmann/json.hpp>

namespace fettle {

Result<std::optional<PhotoScale>> scale_of_photo(const Notebook& notebook, PhotoId photo) {
    return notebook.read([&](store::Database& database) -> std::optional<PhotoScale> {
        auto row =
            database.query("SELECT known, measured FROM photo_scales WHERE photo_id = ?", photo);
        if (!row.next()) return std::nullopt;
        return PhotoScale{photo, row.get<std::string>(0), row.get<std::string>(1)};
    });
}

Done keep_scale(Notebook& notebook, const PhotoScale& scale, const std::string& words) {
    if (auto photo = photo_by_id(notebook, scale.photo); !photo) return photo.failure();
    using nlohmann::json;
    if (!json::parse(scale.known, nullptr, false).is_object() ||
        !json::parse(scale.measured, nullptr, false).is_array())
        return Failure{FailureKind::invalid, "What is known and measured in a photo is kept as a "
                                             "JSON object and a JSON list."};
    return notebook.act(words, [&](store::Database& database) -> Done {
        database.run("INSERT INTO photo_scales(id, photo_id, known, measured) VALUES "
                     "(next_id('photo_scales'), ?, ?, ?) "
                     "ON CONFLICT (photo_id) DO UPDATE SET known = excluded.known, "
                     "measured = excluded.measured",
                     scale.photo, scale.known, scale.measured);
        return done();
    });
}

Done remove_scale(Notebook& notebook, PhotoId photo) {
    return notebook.act("removed what is known in a photo", [&](store::Database& database) -> Done {
        database.run("DELETE FROM photo_scales WHERE photo_id = ?", photo);
        if (database.rows_changed() == 0)
            return nothing_called("known length of photo", std::to_string(photo.value));
        return done();
    });
}

} // namespace fettle

#include "ui/window_state.h"

#include "base/whole_file.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <fstream>

namespace fettle::ui {
namespace {

using Json = nlohmann::json;

constexpr int kLeastSide = 400, kMostSide = 16384;
constexpr float kMostEntry = 4000;

template <class T>
void take(const Json& json, const char* name, T& value) {
    const auto found = json.find(name);
    if (found == json.end()) return;
    if constexpr (std::is_same_v<T, bool>) {
        if (found->is_boolean()) value = found->get<bool>();
    } else if constexpr (std::is_same_v<T, std::string>) {
        if (found->is_string()) value = found->get<std::string>();
    } else if (found->is_number()) {
        value = static_cast<T>(std::clamp(found->get<double>(), -1e6, 1e6));
    }
}

// Columns of an earlier or later program may be named: they change nothing.
TableState table_of(const Json& json) {
    TableState table;
    take(json, "by", table.by);
    take(json, "downwards", table.downwards);
    if (const auto changed = json.find("changed"); changed != json.end() && changed->is_array())
        for (const Json& column : *changed)
            if (column.is_string()) table.changed.insert(column.get<std::string>());
    return table;
}

Json json_of(const std::map<std::string, TableState>& tables) {
    Json json = Json::object();
    for (const auto& [key, table] : tables)
        json[key] = {{"by", table.by}, {"downwards", table.downwards}, {"changed", table.changed}};
    return json;
}

} // namespace

WindowState read_window_state(const std::filesystem::path& file) {
    WindowState state;
    std::ifstream in(file, std::ios::binary);
    const Json json = Json::parse(in, nullptr, false);
    if (!json.is_object()) return state;
    take(json, "width", state.width);
    take(json, "height", state.height);
    take(json, "maximised", state.maximised);
    bool dark = false;
    take(json, "dark", dark);
    state.room.light = dark ? Light::night : Light::day;
    take(json, "text_scale", state.room.text_scale);
    take(json, "screen", state.room.screen);
    take(json, "entry_open", state.room.entry_open);
    take(json, "entry_width", state.room.entry_width);
    if (const auto tables = json.find("tables"); tables != json.end() && tables->is_object())
        for (const auto& [key, table] : tables->items())
            if (table.is_object()) state.room.tables[key] = table_of(table);
    state.width = std::clamp(state.width, kLeastSide, kMostSide);
    state.height = std::clamp(state.height, kLeastSide, kMostSide);
    state.room.text_scale = std::clamp(state.room.text_scale, kLeastScale, kMostScale);
    state.room.entry_width = std::clamp(state.room.entry_width, 0.0F, kMostEntry);
    return state;
}

void keep_window_state(const std::filesystem::path& file, const WindowState& state) {
    const Json json = {{"width", state.width},
                       {"height", state.height},
                       {"maximised", state.maximised},
                       {"dark", state.room.light == Light::night},
                       {"text_scale", state.room.text_scale},
                       {"screen", state.room.screen},
                       {"entry_open", state.room.entry_open},
                       {"entry_width", state.room.entry_width},
                       {"tables", json_of(state.room.tables)}};
    std::error_code ignored;
    std::filesystem::create_directories(file.parent_path(), ignored);
    (void)write_whole(file, json.dump(2, ' ', false, Json::error_handler_t::replace) + '\n');
}

} // namespace fettle::ui

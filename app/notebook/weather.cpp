#include "notebook/weather.h"

#include <cstdio>

namespace fettle {

Done set_weather(Notebook& notebook, Day day, const Weather& weather) {
    if (weather.temperature_c && !(*weather.temperature_c >= -60 && *weather.temperature_c <= 60))
        return Failure{FailureKind::invalid,
                       "The day's temperature is accepted from -60 to 60 °C."};
    if (weather.humidity && !(*weather.humidity >= 0 && *weather.humidity <= 1))
        return Failure{FailureKind::invalid, "The day's humidity is accepted from 0 to 100 %."};
    return notebook.act("set the day's weather", [&](store::Database& database) -> Done {
        database.run(
            "INSERT INTO day_conditions(on_date, temperature_c, humidity) VALUES (?, ?, ?) "
            "ON CONFLICT (on_date) DO UPDATE SET temperature_c = excluded.temperature_c, "
            "humidity = excluded.humidity",
            to_iso(day), weather.temperature_c, weather.humidity);
        return done();
    });
}

Result<Weather> weather_on(const Notebook& notebook, Day day) {
    return notebook.read([&](store::Database& database) {
        auto row = database.query(
            "SELECT temperature_c, humidity FROM day_conditions WHERE on_date = ?", to_iso(day));
        if (!row.next()) return Weather{};
        return Weather{row.get<std::optional<double>>(0), row.get<std::optional<double>>(1)};
    });
}

std::string in_degrees(double celsius) {
    char text[32];
    std::snprintf(text, sizeof text, "%g °C", celsius);
    return text;
}

Done set_hours_of_day(Notebook& notebook, Day day, std::optional<double> hours) {
    if (hours && !(*hours >= 0 && *hours <= 24))
        return Failure{FailureKind::invalid, "The hours of a day are accepted from 0 to 24."};
    return notebook.act("set the hours of the day", [&](store::Database& database) -> Done {
        database.run("INSERT INTO day_conditions(on_date, hours) VALUES (?, ?) "
                     "ON CONFLICT (on_date) DO UPDATE SET hours = excluded.hours",
                     to_iso(day), hours);
        return done();
    });
}

Result<std::optional<double>> hours_of_day(const Notebook& notebook, Day day) {
    return notebook.read([&](store::Database& database) -> std::optional<double> {
        auto row =
            database.query("SELECT hours FROM day_conditions WHERE on_date = ?", to_iso(day));
        return row.next() ? row.get<std::optional<double>>(0) : std::nullopt;
    });
}

} // namespace fettle

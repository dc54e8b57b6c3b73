// The day's temperature and humidity in the workshop, typed once a day and used by tasks and
// sheets, and how many hours one has for it.
#pragma once

#include "base/date.h"
#include "notebook/notebook.h"

namespace fettle {

struct Weather {
    std::optional<double> temperature_c;
    std::optional<double> humidity; // relative, 0 to 1
};

// Refuses temperatures outside -60 to 60 °C and humidities outside 0 to 1.
Done set_weather(Notebook& notebook, Day day, const Weather& weather);
Result<Weather> weather_on(const Notebook& notebook, Day day); // blank when nobody typed it

std::string in_degrees(double celsius); // "12 °C"

// Refuses what is not 0 to 24 hours; none takes them back.
Done set_hours_of_day(Notebook& notebook, Day day, std::optional<double> hours);
Result<std::optional<double>> hours_of_day(const Notebook& notebook, Day day);

} // namespace fettle

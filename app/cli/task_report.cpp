#include "cli/task_report.h"

#include "base/quantity.h"

#include <cmath>

namespace fettle::cli {

Result<Report> task_report(const Notebook& notebook, TaskId id) {
    auto standings = list_tasks(notebook, today());
    if (!standings) return standings.failure();
    const TaskStanding* standing = TaskIndex(*standings).find(id);
    if (!standing) return Failure{FailureKind::not_found, "There is no such task."};
    auto names = names_in(notebook);
    if (!names) return names.failure();
    return Report{"task " + std::to_string(id.value) + "  " +
                      std::string(standing_word(*standing)) + '\n',
                  to_json(*standing, *names)};
}

Result<std::optional<double>> parse_celsius(const std::string& text) {
    if (text.empty()) return std::optional<double>();
    auto temperature = parse_quantity(text, "temperature", "°C");
    if (!temperature) return temperature.failure();
    auto celsius = to_unit(temperature->si, "temperature", "°C");
    if (!celsius) return celsius.failure();
    return std::optional(std::round(*celsius * 1e6) / 1e6); // 15 °C is 288.15 K and back again
}

} // namespace fettle::cli

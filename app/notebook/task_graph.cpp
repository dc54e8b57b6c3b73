#include "notebook/task_graph.h"

#include <algorithm>
#include <array>
#include <bit>
#include <deque>
#include <optional>

namespace fettle {
namespace {

// The other direction: who needs each task.
std::vector<std::vector<TaskPlace>> needed_by(const TaskGraph& graph) {
    std::vector<std::vector<TaskPlace>> back(graph.size());
    for (TaskPlace task = 0; task < graph.size(); ++task)
        for (const TaskPlace need : graph[task].needs)
            back[need].push_back(task);
    return back;
}

// Sums of the hours of any eight of 64 tasks, by the byte that names them: adding bit by bit would
// cost eight times as much.
class HoursOfMask {
  public:
    void set(const std::array<double, 64>& hours) {
        for (std::size_t byte = 0; byte < 8; ++byte)
            for (std::size_t mask = 1; mask < 256; ++mask) {
                const auto low = static_cast<std::size_t>(std::countr_zero(mask));
                sums_[byte][mask] = sums_[byte][mask & (mask - 1)] + hours[8 * byte + low];
            }
    }
    double of(std::uint64_t mask) const {
        double sum = 0;
        for (std::size_t byte = 0; mask != 0; ++byte, mask >>= 8)
            sum += sums_[byte][mask & 255];
        return sum;
    }

  private:
    std::array<std::array<double, 256>, 8> sums_{};
};

} // namespace

TaskOrder order_of(const TaskGraph& graph) {
    const auto back = needed_by(graph);
    std::vector<std::size_t> missing(graph.size());
    TaskOrder result;
    result.order.reserve(graph.size());
    for (TaskPlace task = 0; task < graph.size(); ++task) {
        missing[task] = graph[task].needs.size();
        if (missing[task] == 0) result.order.push_back(task);
    }
    for (std::size_t next = 0; next < result.order.size(); ++next)
        for (const TaskPlace after : back[result.order[next]])
            if (--missing[after] == 0) result.order.push_back(after);
    result.circular = graph.size() - result.order.size();
    for (TaskPlace task = 0; task < graph.size() && result.order.size() < graph.size(); ++task)
        if (missing[task] > 0) result.order.push_back(task);
    result.rank.resize(graph.size());
    for (TaskPlace place = 0; place < graph.size(); ++place)
        result.rank[result.order[place]] = place;
    return result;
}

std::vector<TaskPlace> circle_through(const TaskGraph& graph, TaskPlace task) {
    std::vector<std::optional<TaskPlace>> come_from(graph.size());
    std::deque<TaskPlace> ahead{task};
    while (!ahead.empty()) {
        const TaskPlace at = ahead.front();
        ahead.pop_front();
        for (const TaskPlace need : graph[at].needs) {
            if (need == task) {
                std::vector<TaskPlace> circle;
                for (TaskPlace way = at; way != task; way = *come_from[way])
                    circle.push_back(way);
                circle.push_back(task);
                std::ranges::reverse(circle);
                return circle;
            }
            if (come_from[need]) continue;
            come_from[need] = at;
            ahead.push_back(need);
        }
    }
    return {};
}

std::vector<TaskPlace> circle_in(const TaskGraph& graph) {
    const TaskOrder order = order_of(graph);
    for (std::size_t last = graph.size() - order.circular; last < graph.size(); ++last)
        if (auto circle = circle_through(graph, order.order[last]); !circle.empty()) return circle;
    return {};
}

CriticalPath critical_path(const TaskGraph& graph, const TaskOrder& order) {
    CriticalPath found;
    found.spans.resize(graph.size());
    const auto counts = [&](TaskPlace task, TaskPlace need) {
        return graph[task].open && graph[need].open && order.follows(task, need);
    };
    std::optional<TaskPlace> last;
    for (const TaskPlace task : order.order) {
        if (!graph[task].open) continue;
        TaskSpan& span = found.spans[task];
        for (const TaskPlace need : graph[task].needs)
            if (counts(task, need))
                span.earliest_start =
                    std::max(span.earliest_start, found.spans[need].earliest_finish);
        span.earliest_finish = span.earliest_start + graph[task].hours;
        if (!last || span.earliest_finish > found.hours) last = task;
        found.hours = std::max(found.hours, span.earliest_finish);
    }
    for (TaskPlace task = 0; task < graph.size(); ++task)
        if (graph[task].open) found.spans[task].latest_finish = found.hours;
    for (std::size_t place = order.order.size(); place-- > 0;) {
        const TaskPlace task = order.order[place];
        if (!graph[task].open) continue;
        TaskSpan& span = found.spans[task];
        span.latest_start = span.latest_finish - graph[task].hours;
        for (const TaskPlace need : graph[task].needs)
            if (counts(task, need))
                found.spans[need].latest_finish =
                    std::min(found.spans[need].latest_finish, span.latest_start);
    }
    while (last) { // back along the needs that end last
        found.path.push_back(*last);
        std::optional<TaskPlace> before;
        for (const TaskPlace need : graph[*last].needs)
            if (counts(*last, need) && (!before || found.spans[need].earliest_finish >
                                                       found.spans[*before].earliest_finish))
                before = need;
        last = before;
    }
    std::ranges::reverse(found.path);
    return found;
}

std::vector<int> levels_of(const TaskGraph& graph, const TaskOrder& order) {
    std::vector<int> levels(graph.size());
    for (const TaskPlace task : order.order)
        for (const TaskPlace need : graph[task].needs)
            if (order.follows(task, need)) levels[task] = std::max(levels[task], levels[need] + 1);
    return levels;
}

// By 64 tasks at a time: which of them come after each task, as the bits of one word. A task that
// is over holds nothing up, so no way leads over it.
std::vector<TaskAfter> after_each(const TaskGraph& graph, const TaskOrder& order) {
    std::vector<TaskAfter> after(graph.size());
    std::vector<std::uint64_t> masks(graph.size());
    HoursOfMask sums;
    for (std::size_t first = 0; first < graph.size(); first += 64) {
        const std::size_t end = std::min(first + 64, graph.size());
        std::array<double, 64> hours{};
        std::ranges::fill(masks, 0);
        for (std::size_t place = first; place < end; ++place)
            hours[place - first] = graph[order.order[place]].hours;
        sums.set(hours);
        for (std::size_t place = end; place-- > 0;) { // nothing later comes before these
            const TaskPlace task = order.order[place];
            if (!graph[task].open) continue;
            const std::uint64_t mask = masks[task];
            after[task].tasks += std::popcount(mask);
            if (mask != 0) after[task].hours += sums.of(mask);
            const std::uint64_t own = place >= first ? std::uint64_t{1} << (place - first) : 0;
            const std::uint64_t handed = mask | own;
            if (handed == 0) continue;
            for (const TaskPlace need : graph[task].needs)
                if (order.follows(task, need)) masks[need] |= handed;
        }
    }
    return after;
}

} // namespace fettle

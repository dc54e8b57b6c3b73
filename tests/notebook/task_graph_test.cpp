// Order, circles, the critical path and what comes after, against examples worked in textbooks and
// against Boost.Graph on random graphs.
#include "notebook/task_graph.h"

#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/breadth_first_search.hpp>
#include <boost/graph/dag_shortest_paths.hpp>
#include <boost/graph/strong_components.hpp>
#include <boost/graph/topological_sort.hpp>
#include <doctest/doctest.h>

#include <numeric>
#include <random>

using namespace fettle;

namespace {

using Arrows = boost::adjacency_list<boost::vecS, boost::vecS, boost::directedS, boost::no_property,
                                     boost::property<boost::edge_weight_t, double>>;

// An activity as textbooks list it.
struct Activity {
    const char* name;
    double duration;
    std::vector<TaskPlace> after;
    double earliest_start, earliest_finish, latest_start, latest_finish;
};

void check_example(const std::vector<Activity>& activities, double duration,
                   const std::string& path) {
    TaskGraph graph;
    for (const Activity& activity : activities)
        graph.push_back({.hours = activity.duration, .needs = activity.after});
    const CriticalPath found = critical_path(graph, order_of(graph));
    CHECK(found.hours == duration);
    std::string said;
    for (const TaskPlace place : found.path)
        said += (said.empty() ? "" : " ") + std::string(activities[place].name);
    CHECK(said == path);
    for (std::size_t i = 0; i < activities.size(); ++i) {
        const Activity& activity = activities[i];
        const TaskSpan& span = found.spans[i];
        CAPTURE(activity.name);
        CHECK(span.earliest_start == activity.earliest_start);
        CHECK(span.earliest_finish == activity.earliest_finish);
        CHECK(span.latest_start == activity.latest_start);
        CHECK(span.latest_finish == activity.latest_finish);
        CHECK(span.slack() == activity.latest_start - activity.earliest_start);
    }
}

// `tasks` tasks, each needing some that stand before it in a shuffled order; now and then one needs
// a later one, and some are over.
TaskGraph random_graph(std::mt19937& random, std::size_t tasks, double needs_each, int backwards) {
    std::vector<TaskPlace> shuffled(tasks);
    std::iota(shuffled.begin(), shuffled.end(), 0U);
    std::ranges::shuffle(shuffled, random);
    TaskGraph graph(tasks);
    const auto below = [&](std::size_t end) {
        return std::uniform_int_distribution<std::size_t>(0, end - 1)(random);
    };
    const auto add = [&](TaskPlace task, TaskPlace need) {
        auto& needs = graph[task].needs;
        if (std::ranges::find(needs, need) == needs.end()) needs.push_back(need);
    };
    for (TaskPlace place = 0; place < tasks; ++place) {
        graph[place].hours = static_cast<double>(below(17)) / 2; // exact in binary
        graph[place].open = below(8) != 0;
    }
    for (std::size_t i = 1; i < tasks; ++i)
        for (double chance = needs_each; chance > 0; chance -= 1)
            if (static_cast<double>(below(1000)) < chance * 1000)
                add(shuffled[i], shuffled[below(i)]);
    for (int i = 0; i < backwards; ++i) {
        const std::size_t late = 1 + below(tasks - 1);
        add(shuffled[below(late)], shuffled[late]);
    }
    return graph;
}

// From need to task, `weight` on each arrow, negative so that the shortest way is the heaviest;
// only open tasks where it is asked for.
Arrows arrows_of(const TaskGraph& graph, bool open_only, auto weight) {
    Arrows arrows(graph.size());
    for (TaskPlace task = 0; task < graph.size(); ++task)
        for (const TaskPlace need : graph[task].needs)
            if (!open_only || (graph[task].open && graph[need].open))
                boost::add_edge(need, task, -weight(need), arrows);
    return arrows;
}

// The heaviest way to each vertex, from wherever it may begin.
std::vector<double> heaviest_to_each(Arrows&& arrows) {
    const auto vertices = boost::num_vertices(arrows);
    const auto source = boost::add_vertex(arrows);
    for (std::size_t vertex = 0; vertex < vertices; ++vertex)
        boost::add_edge(source, vertex, 0.0, arrows);
    std::vector<double> distance(vertices + 1);
    boost::dag_shortest_paths(arrows, source, boost::distance_map(distance.data()));
    for (double& each : distance)
        each = -each;
    return distance;
}

std::vector<bool> reached_from(const Arrows& arrows, std::size_t start) {
    std::vector<int> distance(boost::num_vertices(arrows), -1);
    distance[start] = 0;
    boost::breadth_first_search(arrows, start,
                                boost::visitor(boost::make_bfs_visitor(boost::record_distances(
                                    distance.data(), boost::on_tree_edge()))));
    std::vector<bool> reached(distance.size());
    for (std::size_t i = 0; i < distance.size(); ++i)
        reached[i] = distance[i] > 0;
    return reached;
}

bool is_circle(const TaskGraph& graph, const std::vector<TaskPlace>& circle) {
    for (std::size_t i = 0; i < circle.size(); ++i) {
        const auto& needs = graph[circle[i]].needs;
        if (std::ranges::find(needs, circle[(i + 1) % circle.size()]) == needs.end()) return false;
    }
    return !circle.empty();
}

const auto kNoWeight = [](TaskPlace) { return 1.0; };

} // namespace

// F. S. Hillier, G. J. Lieberman, Introduction to Operations Research, chapter on project
// management with PERT/CPM, the Reliable Construction Co. project, in weeks. Durations: seen,
// reprinted as an exercise elsewhere. Predecessors, the start and finish times, the slacks and the
// critical path of 44 weeks: from memory of the book's tables.
TEST_CASE("the plant of the textbook takes 44 weeks along its published critical path") {
    enum : TaskPlace { A, B, C, D, E, F, G, H, I, J, K, L };
    check_example({{"A", 2, {}, 0, 2, 0, 2},
                   {"B", 4, {A}, 2, 6, 2, 6},
                   {"C", 10, {B}, 6, 16, 6, 16},
                   {"D", 6, {C}, 16, 22, 20, 26},
                   {"E", 4, {C}, 16, 20, 16, 20},
                   {"F", 5, {E}, 20, 25, 20, 25},
                   {"G", 7, {D}, 22, 29, 26, 33},
                   {"H", 9, {E, G}, 29, 38, 33, 42},
                   {"I", 7, {C}, 16, 23, 18, 25},
                   {"J", 8, {F, I}, 25, 33, 25, 33},
                   {"K", 4, {J}, 33, 37, 34, 38},
                   {"L", 5, {J}, 33, 38, 33, 38},
                   {"M", 2, {H}, 38, 40, 42, 44},
                   {"N", 6, {K, L}, 38, 44, 38, 44}},
                  44, "A B C E F J L N");
}

// Solutions to the chapter on project management of B. W. Taylor, Introduction to Management
// Science (chapter 8, the first two tables of solutions): seen. Activities stand on arrows there,
// between numbered events; an activity needs all that end where it begins. 4-5 of the second is a
// dummy.
TEST_CASE("two networks of another textbook give its earliest and latest times and slacks") {
    {
        enum : TaskPlace { k12, k13, k24, k34, k35, k45 };
        check_example({{"1-2", 7, {}, 0, 7, 2, 9},
                       {"1-3", 10, {}, 0, 10, 0, 10},
                       {"2-4", 6, {k12}, 7, 13, 9, 15},
                       {"3-4", 5, {k13}, 10, 15, 10, 15},
                       {"3-5", 4, {k13}, 10, 14, 14, 18},
                       {"4-5", 3, {k24, k34}, 15, 18, 15, 18},
                       {"5-6", 2, {k35, k45}, 18, 20, 18, 20}},
                      20, "1-3 3-4 4-5 5-6");
    }
    enum : TaskPlace { k12, k13, k14, k25, k26, k35, k45, k47, k57, k58, k69, k78 };
    check_example({{"1-2", 8, {}, 0, 8, 1, 9},
                   {"1-3", 10, {}, 0, 10, 0, 10},
                   {"1-4", 9, {}, 0, 9, 6, 15},
                   {"2-5", 6, {k12}, 8, 14, 9, 15},
                   {"2-6", 4, {k12}, 8, 12, 16, 20},
                   {"3-5", 5, {k13}, 10, 15, 10, 15},
                   {"4-5", 0, {k14}, 9, 9, 15, 15},
                   {"4-7", 7, {k14}, 9, 16, 20, 27},
                   {"5-7", 12, {k25, k35, k45}, 15, 27, 15, 27},
                   {"5-8", 15, {k25, k35, k45}, 15, 30, 16, 31},
                   {"6-9", 18, {k26}, 12, 30, 20, 38},
                   {"7-8", 4, {k47, k57}, 27, 31, 27, 31},
                   {"8-9", 7, {k58, k78}, 31, 38, 31, 38}},
                  38, "1-3 3-5 5-7 7-8 8-9");
}

TEST_CASE("what is over takes no hours, holds nothing up and passes nothing on") {
    // 0 needs nothing, 1 needs 0 and is over, 2 needs 1: 2 does not wait for 0.
    const TaskGraph graph{
        {.hours = 3}, {.hours = 5, .open = false, .needs = {0}}, {.hours = 2, .needs = {1}}};
    const TaskOrder order = order_of(graph);
    CHECK(critical_path(graph, order).hours == 3);
    CHECK(critical_path(graph, order).spans[2].earliest_start == 0);
    CHECK(after_each(graph, order)[0].tasks == 0);
    CHECK(levels_of(graph, order) == std::vector{0, 1, 2});
}

TEST_CASE("an empty graph has no circle, no path and takes no time") {
    const TaskGraph none;
    CHECK(circle_in(none).empty());
    CHECK(critical_path(none, order_of(none)).path.empty());
    CHECK(critical_path(none, order_of(none)).hours == 0);
    CHECK(after_each(none, order_of(none)).empty());
}

TEST_CASE("circles are found in just those random graphs that Boost.Graph cannot sort") {
    std::mt19937 random(1936);
    int with = 0;
    for (int round = 0; round < 300; ++round) {
        CAPTURE(round);
        const auto graph =
            random_graph(random, 2 + std::size_t(round) % 60, 1.4, round % 3 == 0 ? 0 : round % 3);
        const Arrows arrows = arrows_of(graph, false, kNoWeight);
        std::vector<std::size_t> sorted;
        bool sorts = true;
        try {
            boost::topological_sort(arrows, std::back_inserter(sorted));
        } catch (const boost::not_a_dag&) {
            sorts = false;
        }
        const auto circle = circle_in(graph);
        CHECK(circle.empty() == sorts);
        if (!sorts) CHECK(is_circle(graph, circle));
        with += sorts ? 0 : 1;

        // At the end of the order stand those in a strong component of several, or after one.
        std::vector<int> component(graph.size());
        const int components = boost::strong_components(arrows, component.data());
        std::vector<int> sizes(std::size_t(components), 0);
        for (const int each : component)
            ++sizes[std::size_t(each)];
        std::vector<bool> circular(graph.size(), false);
        for (std::size_t vertex = 0; vertex < graph.size(); ++vertex) {
            if (sizes[std::size_t(component[vertex])] < 2) continue;
            circular[vertex] = true;
            const auto reached = reached_from(arrows, vertex);
            for (std::size_t other = 0; other < reached.size(); ++other)
                circular[other] = circular[other] || reached[other];
            CHECK(is_circle(graph, circle_through(graph, TaskPlace(vertex))));
        }
        const TaskOrder order = order_of(graph);
        CHECK(order.circular == std::size_t(std::ranges::count(circular, true)));
        for (std::size_t place = 0; place < graph.size(); ++place)
            CHECK(circular[order.order[place]] == (place >= graph.size() - order.circular));
    }
    CHECK(with > 50);
    CHECK(with < 250);
}

TEST_CASE("orders, spans, levels and what comes after agree with Boost.Graph on random graphs") {
    std::mt19937 random(25);
    for (int round = 0; round < 120; ++round) {
        CAPTURE(round);
        // Up to 200: after_each goes by words of 64.
        const auto graph = random_graph(random, 1 + std::size_t(round) * 5 / 3, 1.7, 0);
        const TaskOrder order = order_of(graph);
        REQUIRE(order.circular == 0);
        for (TaskPlace task = 0; task < graph.size(); ++task) {
            CHECK(order.order[order.rank[task]] == task);
            for (const TaskPlace need : graph[task].needs)
                CHECK(order.rank[need] < order.rank[task]);
        }

        // Earliest start: the heaviest way there. Latest finish: the whole less the heaviest way
        // on.
        const auto hours = [&](TaskPlace place) {
            return graph[place].open ? graph[place].hours : 0;
        };
        const auto starts = heaviest_to_each(arrows_of(graph, true, hours));
        Arrows back(graph.size());
        for (TaskPlace task = 0; task < graph.size(); ++task)
            for (const TaskPlace need : graph[task].needs)
                if (graph[task].open && graph[need].open)
                    boost::add_edge(task, need, -hours(task), back);
        const auto tails = heaviest_to_each(std::move(back));
        double whole = 0;
        for (TaskPlace task = 0; task < graph.size(); ++task)
            whole = std::max(whole, starts[task] + hours(task));
        const CriticalPath found = critical_path(graph, order);
        CHECK(found.hours == whole);
        double along = 0;
        for (const TaskPlace place : found.path) {
            CHECK(found.spans[place].slack() == 0);
            CHECK(found.spans[place].earliest_start == along);
            along += hours(place);
        }
        CHECK(along == whole);

        const auto depths = heaviest_to_each(arrows_of(graph, false, kNoWeight));
        const auto levels = levels_of(graph, order);
        const auto after = after_each(graph, order);
        const Arrows open = arrows_of(graph, true, kNoWeight);
        for (TaskPlace task = 0; task < graph.size(); ++task) {
            CAPTURE(task);
            CHECK(levels[task] == depths[task]);
            if (!graph[task].open) {
                CHECK(after[task].tasks == 0);
                CHECK(found.spans[task].latest_finish == 0);
                continue;
            }
            CHECK(found.spans[task].earliest_start == starts[task]);
            CHECK(found.spans[task].earliest_finish == starts[task] + hours(task));
            CHECK(found.spans[task].latest_finish == whole - tails[task]);
            const auto reached = reached_from(open, task);
            double sum = 0;
            for (TaskPlace other = 0; other < graph.size(); ++other)
                if (reached[other]) sum += hours(other);
            CHECK(after[task].tasks == std::ranges::count(reached, true));
            CHECK(after[task].hours == sum);
        }
    }
}

#include "calc/worker/answer_sink.h"

#include "base/text.h"
#include "calc/chart_json.h"

#include <cmath>
#include <cstring>
#include <exception>

namespace fettle::calc {
namespace {

constexpr std::size_t kMostTextBytes = 10'000;
constexpr std::size_t kMostLines = 10'000;
constexpr std::size_t kMostRows = 100'000;
constexpr std::size_t kMostPoints = 100'000; // series and labels of all charts together
constexpr std::size_t kMostBytesInAll = 64u << 20;

std::string number_fault(double number) {
    return std::isnan(number) ? "is not a number (NaN)" : "is infinite";
}

} // namespace

// Runs `work` on the sink unless a fault has been found before. The caller is C: nothing may be
// thrown through it.
template <class Work>
void AnswerSink::guarded(void* context, Work work) noexcept {
    auto& sink = *static_cast<AnswerSink*>(context);
    if (sink.fault_) return;
    try {
        work(sink);
    } catch (const std::exception&) {
        sink.fault_.emplace(); // no memory: even a sentence may be too much
    }
}

AnswerSink::AnswerSink(const Sheet& sheet) : sheet_(sheet), callbacks_{} {
    callbacks_.struct_size = sizeof callbacks_;
    callbacks_.context = this;
    callbacks_.number = [](void* context, const char* id, double si) {
        guarded(context, [=](AnswerSink& sink) { sink.take_number(id, si); });
    };
    callbacks_.text = [](void* context, const char* id, const char* text) {
        guarded(context, [=](AnswerSink& sink) { sink.take_text(id, text); });
    };
    callbacks_.row = [](void* context, const char* id, const fettle_cell* cells,
                        std::uint32_t count) {
        guarded(context, [=](AnswerSink& sink) { sink.take_row(id, cells, count); });
    };
    callbacks_.working = [](void* context, const char* line) {
        guarded(context, [=](AnswerSink& sink) { sink.take_working(line); });
    };
    callbacks_.note = [](void* context, std::uint32_t level, const char* text) {
        guarded(context, [=](AnswerSink& sink) { sink.take_note(level, text); });
    };
    callbacks_.series = [](void* context, const char* id, const char* name, std::uint32_t look,
                           const fettle_point* points, std::uint32_t count) {
        guarded(context,
                [=](AnswerSink& sink) { sink.take_series(id, name, look, points, count); });
    };
    callbacks_.label = [](void* context, const char* id, double x, double y, const char* text) {
        guarded(context, [=](AnswerSink& sink) { sink.take_label(id, {x, y}, text); });
    };
    callbacks_.refuse = [](void* context, const char* input_id, const char* sentence) {
        guarded(context, [=](AnswerSink& sink) { sink.take_refusal(input_id, sentence); });
    };
}

void AnswerSink::fail(std::string sentence) {
    if (!fault_) fault_ = std::move(sentence);
}

std::string AnswerSink::checked_text(const char* text, const std::string& what) {
    if (!text) {
        fail("it handed over a null pointer as " + what + ".");
        return {};
    }
    const std::size_t length = strnlen(text, kMostTextBytes + 1);
    text_bytes_ += length;
    if (length > kMostTextBytes)
        fail("it wrote more than " + std::to_string(kMostTextBytes) + " bytes as " + what + ".");
    else if (text_bytes_ > kMostBytesInAll)
        fail("it wrote more than " + std::to_string(kMostBytesInAll) + " bytes of text in all.");
    return fault_ ? std::string() : safe_utf8({text, length});
}

void AnswerSink::count_entry(std::size_t& counter, std::size_t most, const std::string& what) {
    if (++counter > most) fail("it wrote more than " + std::to_string(most) + " " + what + ".");
}

void AnswerSink::take_number(const char* declared_id, double si) {
    const std::string id = checked_text(declared_id, "the id of an output");
    if (fault_) return;
    const Output* output = find_by_id(sheet_.outputs, id);
    if (!output)
        fail("it wrote an output " + fettle::quoted(id) + " that it does not declare.");
    else if (output->shape != Shape::number)
        fail("it wrote a number into the text output " + output->label + " (" + id + ").");
    else if (!std::isfinite(si))
        fail("its output " + output->label + " (" + id + ") " + number_fault(si) + ".");
    else
        outputs_[id] = si;
}

// A text in a number's place says why there is no number.
void AnswerSink::take_text(const char* declared_id, const char* text) {
    const std::string id = checked_text(declared_id, "the id of an output");
    std::string checked = checked_text(text, "the output " + fettle::quoted(id));
    if (fault_) return;
    if (!find_by_id(sheet_.outputs, id))
        return fail("it wrote an output " + fettle::quoted(id) + " that it does not declare.");
    outputs_[id] = std::move(checked);
}

void AnswerSink::take_row(const char* declared_id, const fettle_cell* cells, std::uint32_t count) {
    const std::string id = checked_text(declared_id, "the id of a table");
    count_entry(rows_, kMostRows, "table rows");
    if (fault_) return;
    const Table* table = find_by_id(sheet_.tables, id);
    if (!table)
        return fail("it wrote a row into a table " + fettle::quoted(id) +
                    " that it does not declare.");
    const std::string where = "the table " + table->label + " (" + id + ")";
    if (count != table->columns.size())
        return fail("it wrote a row of " + std::to_string(count) + " cells into " + where +
                    ", which has " + std::to_string(table->columns.size()) + " columns.");
    if (!cells) return fail("it handed over a null pointer as the cells of " + where + ".");
    // Cells of a later contract may be larger; their own size is the way from one to the next.
    const std::size_t stride = cells->struct_size;
    if (stride < sizeof(fettle_cell) || stride > 4096 || stride % alignof(fettle_cell) != 0)
        return fail("it wrote cells of " + std::to_string(stride) + " bytes into " + where + "; " +
                    std::to_string(sizeof(fettle_cell)) + " are needed.");
    nlohmann::json row = nlohmann::json::array();
    const char* at = reinterpret_cast<const char*>(cells);
    for (const Column& column : table->columns) {
        row.push_back(cell_json(*table, column, *reinterpret_cast<const fettle_cell*>(at)));
        at += stride;
    }
    if (!fault_) tables_[id].push_back(std::move(row));
}

// NaN in a table's cell stands for a cell left blank, as it does on the way in.
nlohmann::json AnswerSink::cell_json(const Table& table, const Column& column,
                                     const fettle_cell& cell) {
    const std::string where = "column " + column.label + " of the table " + table.label;
    if (column.shape == Shape::text) return checked_text(cell.text, where);
    if (std::isinf(cell.number)) fail("its value in " + where + " is infinite.");
    return std::isfinite(cell.number) ? nlohmann::json(cell.number) : nlohmann::json();
}

// The chart of that id, begun when it is not; nullptr after a fault.
AnsweredChart* AnswerSink::chart_with(const char* declared_id) {
    const std::string id = checked_text(declared_id, "the id of a chart");
    if (fault_) return nullptr;
    const Chart* declared = find_by_id(sheet_.charts, id);
    if (!declared) {
        fail("it drew into a chart " + fettle::quoted(id) + " that it does not declare.");
        return nullptr;
    }
    for (AnsweredChart& begun : charts_)
        if (begun.chart.id == id) return &begun;
    return &charts_.emplace_back(AnsweredChart{*declared, {}, {}});
}

void AnswerSink::take_series(const char* id, const char* name, std::uint32_t look,
                             const fettle_point* points, std::uint32_t count) {
    AnsweredChart* chart = chart_with(id);
    std::string called = checked_text(name, "the name of a series");
    points_ += count + std::size_t{1};
    if (points_ > kMostPoints)
        fail("it drew more than " + std::to_string(kMostPoints) + " points into charts.");
    if (count > 0 && !points) fail("it handed over a null pointer as the points of a series.");
    if (look < FETTLE_LINE || look > FETTLE_BODY)
        fail("it drew a series in the look " + std::to_string(look) + ", which does not exist.");
    if (fault_) return;
    ChartSeries series{std::move(called), static_cast<Look>(look), {}};
    for (std::uint32_t at = 0; at < count; ++at) {
        const ChartPoint point{points[at].x, points[at].y};
        if (!std::isfinite(point.x) || !std::isfinite(point.y))
            return fail("a point of its chart " + chart->chart.id + " is not finite.");
        series.points.push_back(point);
    }
    chart->series.push_back(std::move(series));
}

void AnswerSink::take_label(const char* id, const ChartPoint& at, const char* text) {
    AnsweredChart* chart = chart_with(id);
    std::string checked = checked_text(text, "a label of a chart");
    if (++points_ > kMostPoints)
        fail("it drew more than " + std::to_string(kMostPoints) + " points into charts.");
    if (!std::isfinite(at.x) || !std::isfinite(at.y)) fail("a label of its chart is nowhere.");
    if (!fault_) chart->labels.push_back({at, std::move(checked)});
}

void AnswerSink::take_working(const char* line) {
    std::string checked = checked_text(line, "a line of working");
    std::size_t lines = working_.size();
    count_entry(lines, kMostLines, "lines of working");
    if (!fault_) working_.push_back(std::move(checked));
}

void AnswerSink::take_note(std::uint32_t level, const char* text) {
    std::string checked = checked_text(text, "a note");
    std::size_t notes = notes_.size();
    count_entry(notes, kMostLines, "notes");
    if (level < FETTLE_INFO || level > FETTLE_REACHED)
        fail("it wrote a note of the level " + std::to_string(level) + ", which does not exist.");
    if (!fault_) notes_.push_back({{"level", level}, {"text", std::move(checked)}});
}

void AnswerSink::take_refusal(const char* input_id, const char* sentence) {
    std::string id = checked_text(input_id, "the id of an input");
    std::string checked = checked_text(sentence, "its reason to refuse");
    if (fault_) return;
    if (!id.empty() && !find_by_id(sheet_.inputs, id))
        return fail("it refused the input " + fettle::quoted(id) + ", which it does not declare.");
    if (!refusal_) refusal_ = Failure{FailureKind::refused, std::move(checked), std::move(id)};
}

Result<nlohmann::json> AnswerSink::finish(std::int32_t returned) {
    if (fault_ && fault_->empty()) fault_ = "its answer does not fit into the memory allowed.";
    if (fault_) return Failure{FailureKind::plugin, *fault_};
    if (returned == FETTLE_REFUSED) {
        if (refusal_ && !refusal_->sentence.empty()) return *refusal_;
        return Failure{FailureKind::plugin, "it refused the inputs without saying why."};
    }
    if (returned != FETTLE_DONE)
        return Failure{FailureKind::plugin,
                       "it returned the unknown code " + std::to_string(returned) + "."};
    if (outputs_.empty() && tables_.empty())
        return Failure{FailureKind::plugin, "it said that it was done and gave no answer."};
    nlohmann::json charts = nlohmann::json::object();
    for (const AnsweredChart& chart : charts_)
        charts[chart.chart.id] = drawn_json(chart);
    return nlohmann::json{{"outputs", std::move(outputs_)},
                          {"tables", std::move(tables_)},
                          {"charts", std::move(charts)},
                          {"working", std::move(working_)},
                          {"notes", std::move(notes_)}};
}

} // namespace fettle::calc

// Where a plugin's compute puts its answer: checks every call against the sheet's declaration,
// keeps the first fault, and gathers the rest as JSON.
//
// Its callbacks are called from foreign C code, so nothing is thrown through them. One thread.
#pragma once

#include "base/result.h"
#include "calc/answer.h"
#include "calc/sheet.h"

#include <fettle_plugin.h>
#include <nlohmann/json.hpp>

#include <optional>
#include <string>
#include <string_view>

namespace fettle::calc {

class AnswerSink {
  public:
    explicit AnswerSink(const Sheet& sheet);
    AnswerSink(const AnswerSink&) = delete;
    AnswerSink& operator=(const AnswerSink&) = delete;

    const fettle_sink& callbacks() const { return callbacks_; }

    // The answer as {"outputs", "tables", "charts", "working", "notes"}. `returned`: what compute
    // gave back.
    // Fails with refused (the plugin said why; detail is the input to blame) or with plugin.
    Result<nlohmann::json> finish(std::int32_t returned);

  private:
    template <class Work>
    static void guarded(void* context, Work work) noexcept;

    void take_number(const char* id, double si);
    void take_text(const char* id, const char* text);
    void take_row(const char* id, const fettle_cell* cells, std::uint32_t count);
    nlohmann::json cell_json(const Table& table, const Column& column, const fettle_cell& cell);
    void take_series(const char* id, const char* name, std::uint32_t look,
                     const fettle_point* points, std::uint32_t count);
    void take_label(const char* id, const ChartPoint& at, const char* text);
    AnsweredChart* chart_with(const char* id);
    void take_working(const char* line);
    void take_note(std::uint32_t level, const char* text);
    void take_refusal(const char* input_id, const char* sentence);
    std::string checked_text(const char* text, const std::string& what);
    void fail(std::string sentence);
    void count_entry(std::size_t& counter, std::size_t most, const std::string& what);

    const Sheet& sheet_;
    fettle_sink callbacks_;
    nlohmann::json outputs_ = nlohmann::json::object();
    nlohmann::json tables_ = nlohmann::json::object();
    std::vector<AnsweredChart> charts_;
    nlohmann::json working_ = nlohmann::json::array();
    nlohmann::json notes_ = nlohmann::json::array();
    std::size_t rows_ = 0;
    std::size_t points_ = 0;
    std::size_t text_bytes_ = 0;
    std::optional<Failure> refusal_;
    std::optional<std::string> fault_;
};

} // namespace fettle::calc

#include "ui/screens/parts/part_fields.h"

#include "base/text.h"
#include "ui/candidates.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/fields.h"
#include "ui/widgets/flow.h"

#include <imgui.h>

#include <array>

namespace fettle::ui {
namespace {

constexpr std::array kFields = {"tag",      "name",     "position", "origin", "condition",
                                "decision", "maker",    "place",    "from",   "cost",
                                "quantity", "acquired", "note"};

struct CellLook {
    std::string_view field, label, hint;
    float width = 0;
};

void after(PartFields& fields, std::string_view field, const FieldChange& change, FieldDone& done) {
    if (change.edited) fields.errors.erase(std::string(field));
    if (change.active) done.active = field;
    if (change.left) done.field = field;
}

std::string key_of(std::string_view prefix, std::string_view field) {
    return std::string(prefix) + "." + std::string(field);
}

void cell(Page& page, std::string_view prefix, PartFields& fields, const CellLook& look,
          FieldDone& done, bool take_focus = false) {
    ImGui::BeginGroup();
    const FieldLook field_look{.label = look.label,
                               .hint = look.hint,
                               .error = fields.errors[std::string(look.field)],
                               .width = look.width,
                               .take_focus = take_focus};
    const FieldChange change = text_field(page, key_of(prefix, look.field),
                                          fields.typed[std::string(look.field)], field_look);
    ImGui::EndGroup();
    after(fields, look.field, change, done);
}

// The line holds what was taken before; it follows the record when nobody is writing.
void keep_in_step(FindLine& line, const std::string& typed) {
    if (!line.open) line.typed = typed;
}

void position_cell(Page& page, Context& context, std::string_view prefix, PartFields& fields,
                   FieldDone& done) {
    const auto& known = fields.positions.of(context.book, 0,
                                            [&](int) { return position_candidates(context.book); });
    keep_in_step(fields.position, fields.typed["position"]);
    const auto answer =
        find_as_you_type(page, key_of(prefix, "position"), fields.position, known,
                         {.label = "position on the vehicle",
                          .hint = known.empty() ? "no parts list taken in yet" : "none",
                          .error = fields.errors["position"],
                          .as_typed = true});
    if (fields.position.open) done.active = "position";
    if (answer.edited) fields.errors.erase("position");
    if (answer.taken) {
        const Candidate& taken = *candidate_with(known, *answer.taken);
        fields.position.typed = taken.tag.empty() ? taken.name : taken.tag;
    }
    if (fields.position.typed == fields.typed["position"]) return;
    fields.typed["position"] = fields.position.typed;
    if (answer.taken || answer.entered_as_typed || !fields.position.open) done.field = "position";
}

void maker_cell(Page& page, Context& context, std::string_view prefix, PartFields& fields,
                float width, FieldDone& done) {
    const auto& known =
        fields.makers.of(context.book, 0, [&](int) { return maker_candidates(context.book); });
    keep_in_step(fields.maker, fields.typed["maker"]);
    ImGui::BeginGroup();
    const auto answer = find_as_you_type(
        page, key_of(prefix, "maker"), fields.maker, known,
        {.label = "maker", .hint = "unknown", .most = 4, .as_typed = true, .width = width});
    ImGui::EndGroup();
    if (fields.maker.open) done.active = "maker";
    if (answer.taken) fields.maker.typed = candidate_with(known, *answer.taken)->name;
    if (fields.maker.typed == fields.typed["maker"]) return;
    const bool ended = answer.taken || answer.entered_as_typed || !fields.maker.open;
    fields.typed["maker"] = fields.maker.typed;
    if (ended) done.field = "maker";
}

const std::vector<std::string>& words_for(std::string_view field) {
    if (field == "origin") return all_words<Origin>();
    if (field == "condition") return all_words<Condition>();
    return all_words<Decision>();
}

std::string day_understood(const std::string& typed) {
    const auto day = parse_day(typed);
    return day && !typed.empty() ? to_words(*day) : std::string();
}

} // namespace

std::string text_of(const Part& part, std::string_view field) {
    if (field == "tag") return part.tag;
    if (field == "name") return part.name;
    if (field == "position") return part.position_name;
    if (field == "origin") return std::string(word(part.origin));
    if (field == "condition") return std::string(word(part.condition));
    if (field == "decision") return std::string(word(part.decision));
    if (field == "maker") return part.maker;
    if (field == "place") return part.place;
    if (field == "from") return part.from;
    if (field == "cost") return part.cost ? to_words(*part.cost) : std::string();
    if (field == "quantity") return std::to_string(part.quantity);
    if (field == "acquired") return part.acquired ? to_words(*part.acquired) : std::string();
    if (field == "note") return part.note;
    return {};
}

void PartFields::fill(const Part& part, std::string_view except) {
    for (const std::string field : kFields)
        if (field != except) {
            typed[field] = text_of(part, field);
            errors.erase(field);
        }
}

void choose_word(Page& page, std::string_view prefix, PartFields& fields, std::string_view field,
                 FieldDone& done) {
    const auto& words = words_for(field);
    std::string& typed = fields.typed[std::string(field)];
    int chosen = -1;
    for (int i = 0; i < static_cast<int>(words.size()); ++i)
        if (words[std::size_t(i)] == typed) chosen = i;
    ImGui::BeginGroup();
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2(page.px(Measure::kStep), 0));
    fine_words(page, field);
    if (choice(page, key_of(prefix, field), words, chosen)) {
        typed = words[std::size_t(chosen)];
        done.field = field;
    }
    ImGui::PopStyleVar();
    ImGui::EndGroup();
}

void what_it_is(Page& page, Context& context, std::string_view prefix, PartFields& fields,
                bool take_focus, FieldDone& done) {
    cell(page, prefix, fields,
         {.field = "tag", .label = "tag", .hint = "the next free", .width = 128}, done);
    ImGui::SameLine(0, page.px(Measure::kGap));
    cell(page, prefix, fields, {.field = "name", .label = "name", .hint = "spring hanger"}, done,
         take_focus);
    position_cell(page, context, prefix, fields, done);
}

void what_is_known(Page& page, Context& context, std::string_view prefix, PartFields& fields,
                   FieldDone& done) {
    const float gaps = 2 * page.px(Measure::kGap);
    const float third =
        (ImGui::GetContentRegionAvail().x - gaps) / 3 / std::max(0.1F, page.theme.scale);
    const auto beside = [&] { ImGui::SameLine(0, page.px(Measure::kGap)); };
    maker_cell(page, context, prefix, fields, third, done);
    beside();
    cell(page, prefix, fields, {"place", "kept at", "shelf, bin", third}, done);
    beside();
    cell(page, prefix, fields, {"from", "from whom", "firm or person", third}, done);
    cell(page, prefix, fields, {"cost", "cost", "12.50 GBP", third}, done);
    beside();
    cell(page, prefix, fields, {"quantity", "quantity", "1", third}, done);
    beside();
    ImGui::BeginGroup();
    std::string& acquired = fields.typed["acquired"];
    const std::string understood = day_understood(acquired);
    const FieldChange date = text_field(page, key_of(prefix, "acquired"), acquired,
                                        {.label = "since",
                                         .hint = "7 Mar 2026, today",
                                         .other = understood == acquired ? "" : understood,
                                         .error = fields.errors["acquired"],
                                         .width = third});
    ImGui::EndGroup();
    after(fields, "acquired", date, done);
    const FieldChange note = text_area(page, key_of(prefix, "note"), fields.typed["note"], 2,
                                       {.label = "note", .error = fields.errors["note"]});
    after(fields, "note", note, done);
}

bool read_field(const Notebook& book, PartFields& fields, std::string_view field, Part& part) {
    const std::string name(field);
    std::string text(trim(fields.typed[name]));
    if (field == "quantity" && text.empty()) text = "1";
    // The position stands there by its name, which may be that of several.
    if (field == "position" && text == part.position_name) return true;
    const Done read = put_part_field(book, part, name, text);
    if (read)
        fields.errors.erase(name);
    else
        fields.errors[name] = read.failure().sentence;
    return read.ok();
}

bool read_fields(const Notebook& book, PartFields& fields, Part& part) {
    bool all = true;
    for (const char* field : kFields)
        if (!fields.typed[field].empty()) all = read_field(book, fields, field, part) && all;
    return all;
}

void note_refusal(PartFields& fields, const std::string& sentence) {
    for (const char* field : {"tag", "quantity", "name"})
        if (sentence.find(field) != std::string::npos) {
            fields.errors[field] = sentence;
            return;
        }
    fields.errors["name"] = sentence;
}

} // namespace fettle::ui

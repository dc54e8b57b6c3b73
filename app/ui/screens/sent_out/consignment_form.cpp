#include "ui/screens/sent_out/consignment_form.h"

#include "base/text.h"
#include "ui/candidates.h"
#include "ui/frame/input_queue.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/fields.h"

#include <imgui.h>

#include <algorithm>

namespace fettle::ui {
namespace {

constexpr float kField = 440, kShort = 200;

void whom(Page& page, Context& context, ConsignmentForm& form) {
    int inward = form.head.inward ? 1 : 0;
    if (choice(page, "consignment.inward", {"goes out to a firm", "comes in from a seller"},
               inward)) {
        form.head.inward = inward == 1;
        if (form.head.inward) form.head.destroys_finish = false;
    }
    const auto& known =
        form.firms.of(context.book, 0, [&](int) { return contact_candidates(context.book); });
    const auto answer = find_as_you_type(page, "consignment.firm", form.firm, known,
                                         {.label = form.head.inward ? "seller" : "firm",
                                          .hint = "a few letters, or a new name",
                                          .error = form.firm_error,
                                          .most = 5,
                                          .as_typed = true,
                                          .width = kField});
    if (form.take_focus) form.firm.take_focus = true;
    form.take_focus = false;
    if (answer.edited || answer.taken) form.firm_error.clear();
    if (answer.taken) form.firm.typed = candidate_with(known, *answer.taken)->name;
    form.head.firm = std::string(trim(form.firm.typed));
}

void purpose(Page& page, ConsignmentForm& form) {
    const auto& usual = usual_purposes();
    int chosen = int(std::ranges::find(usual, form.head.purpose) - usual.begin());
    bool changed = false;
    if (!form.head.inward) {
        fine_words(page, "what for");
        changed = choice(page, "consignment.usual", usual, chosen);
        if (changed) form.head.purpose = usual[std::size_t(chosen)];
    }
    const FieldChange own = text_field(page, "consignment.purpose", form.head.purpose,
                                       {.label = form.head.inward ? "what for" : "or in your words",
                                        .hint = form.head.inward ? "bought, swapped" : "blasting",
                                        .error = form.purpose_error,
                                        .width = kField});
    if (changed || own.edited) {
        form.purpose_error.clear();
        form.head.destroys_finish = !form.head.inward && takes_finish_off(form.head.purpose);
    }
    if (!form.head.inward)
        check(page, "consignment.finish", "the work takes the old surface off",
              form.head.destroys_finish);
}

struct Beside {
    Page& page;
    bool first = true;
    void next() {
        if (!first) ImGui::SameLine(0, page.px(Measure::kMargin));
        first = false;
    }
};

void short_field(Beside& beside, std::string_view key, std::string& text, std::string_view label,
                 std::string_view hint, std::string& error) {
    beside.next();
    ImGui::BeginGroup();
    const FieldChange field = text_field(
        beside.page, key, text, {.label = label, .hint = hint, .error = error, .width = kShort});
    if (field.edited) error.clear();
    ImGui::EndGroup();
}

void carriage(Page& page, ConsignmentForm& form) {
    std::string none;
    Beside first{page}, second{page};
    short_field(first, "consignment.carrier", form.head.carrier, "carrier", "", none);
    short_field(first, "consignment.number", form.head.carrier_number, "its number", "", none);
    short_field(first, "consignment.value", form.value, "declared value", "120 GBP",
                form.value_error);
    short_field(second, "consignment.sent", form.sent, "sent on", "not yet", form.sent_error);
    short_field(second, "consignment.due", form.due, form.head.inward ? "due here" : "due back",
                "7 Mar 2026", form.due_error);
    text_field(page, "consignment.note", form.head.note, {.label = "note", .width = kField});
}

template <class T>
bool read_typed(const std::string& typed, std::optional<T>& into, std::string& error,
                Result<T> (*parse)(std::string_view)) {
    error.clear();
    into.reset();
    if (trim(typed).empty()) return true;
    auto read = parse(trim(typed));
    if (!read) {
        error = read.failure().sentence;
        return false;
    }
    into = std::move(*read);
    return true;
}

bool keep(Context& context, ConsignmentForm& form) {
    Consignment& head = form.head;
    const bool value = read_typed(form.value, head.value, form.value_error, parse_money);
    const bool sent = read_typed(form.sent, head.sent_on, form.sent_error, parse_day);
    const bool due = read_typed(form.due, head.due_on, form.due_error, parse_day);
    if (!value || !sent || !due) return false;
    const auto kept = keep_consignment(context.book, head);
    if (kept) {
        head.id = *kept;
        return true;
    }
    const std::string& sentence = kept.failure().sentence;
    if (sentence.find("purpose") != std::string::npos)
        form.purpose_error = sentence;
    else if (sentence.find("came on") != std::string::npos)
        form.sent_error = sentence;
    else if (sentence.find("due") != std::string::npos)
        form.due_error = sentence;
    else
        form.firm_error = sentence;
    return false;
}

} // namespace

ConsignmentForm form_of(const Consignment& head) {
    ConsignmentForm form;
    form.head = head;
    form.firm.typed = head.firm;
    if (head.value) form.value = to_words(*head.value);
    if (head.sent_on) form.sent = to_words(*head.sent_on);
    if (head.due_on) form.due = to_words(*head.due_on);
    return form;
}

HeadEnd draw_consignment_form(Page& page, Context& context, ConsignmentForm& form) {
    constexpr Chord kKeep{'K', true}; // Ctrl Enter writes the entry, wherever one is
    const bool finding = form.firm.open;
    const bool escaped = pressed({.key = static_cast<int>(Key::escape)}) && !finding;
    heading(page, form.head.id ? "Change the consignment" : "A new consignment");
    gap(page);
    whom(page, context, form);
    purpose(page, form);
    carriage(page, form);
    gap(page);
    const bool wanted = button(page, "consignment.keep",
                               form.head.id ? "keep the consignment" : "make the consignment",
                               {.weight = Weight::next, .key_hint = words_of(kKeep)});
    ImGui::SameLine(0, page.px(Measure::kGap));
    const bool left = button(page, "consignment.leave", "leave", {.key_hint = "Esc"});
    if ((wanted || pressed(kKeep, true)) && keep(context, form)) return HeadEnd::kept;
    return left || escaped ? HeadEnd::left : HeadEnd::goes_on;
}

} // namespace fettle::ui

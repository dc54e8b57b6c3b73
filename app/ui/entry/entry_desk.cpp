#include "ui/entry/entry_desk.h"

#include "desk/drafting.h"

namespace fettle::ui {
namespace {

constexpr double kPause = 0.5; // seconds without a key
constexpr std::chrono::milliseconds kMostlyDone{120};

EntryDraft fresh_draft() {
    EntryDraft fresh;
    fresh.day = to_words(today());
    return fresh;
}

std::string clock_now() {
    const std::string said = to_words(now()); // "7 Mar 2026, 19:42"
    const auto comma = said.find(", ");
    return comma == std::string::npos ? said : said.substr(comma + 2);
}

} // namespace

EntryDesk::EntryDesk(Notebook& book, calc::Catalogue& sheets, SideWork& work)
    : draft(fresh_draft()), book_(book), sheets_(sheets), work_(work) {
    auto left = kept_draft(book);
    if (!left)
        trouble = left.failure().sentence;
    else if (!left->blank())
        draft = std::move(*left);
}

EntryDesk::~EntryDesk() {
    if (edited_since_kept_ && !writing()) keep_now();
}

void EntryDesk::tick(double now, bool edited, bool typing) {
    if (auto outcome = writing_->take()) finish_writing(std::move(*outcome));
    if (writing()) return; // the draft is on its way: keeping it now would bring it back
    if (edited) {
        edited_since_kept_ = true;
        edited_at_ = now;
        trouble.clear();
    }
    if (edited_since_kept_ && (!typing || now - edited_at_ >= kPause)) keep_now();
}

void EntryDesk::keep_now() {
    const Done kept = draft.blank() ? drop_draft(book_) : keep_draft(book_, draft);
    not_kept = kept ? std::string() : kept.failure().sentence;
    edited_since_kept_ = false;
    if (kept) kept_at = draft.blank() ? std::string() : clock_now();
}

void EntryDesk::write() {
    if (writing() || draft.blank()) return;
    if (edited_since_kept_) keep_now(); // should the program end before its turn comes
    trouble.clear();
    work_.ask<Result<EntryId>>(writing_, [&book = book_, &sheets = sheets_, entry = draft] {
        return desk::write_draft(book, sheets, entry);
    });
    if (auto outcome = writing_->take_within(kMostlyDone)) finish_writing(std::move(*outcome));
}

void EntryDesk::finish_writing(Result<EntryId> outcome) {
    if (!outcome) {
        trouble = outcome.failure().sentence;
        change_after_ = {};
        keep_now();
        return;
    }
    written_ = *outcome;
    begin(fresh_draft());
    if (change_after_) take_up(std::exchange(change_after_, {}));
}

void EntryDesk::begin(EntryDraft fresh) {
    draft = std::move(fresh);
    edited_since_kept_ = false;
    kept_at.clear();
    trouble.clear();
    replaced_ = true;
}

void EntryDesk::change(EntryId entry) {
    if (writing() || draft.editing == entry) return;
    if (!draft.blank()) {
        wants_to_change = entry;
        return;
    }
    take_up(entry);
}

void EntryDesk::write_then_change() {
    change_after_ = std::exchange(wants_to_change, {});
    write();
}

void EntryDesk::take_up(EntryId entry) {
    wants_to_change = {};
    auto opened = desk::draft_of(book_, entry);
    if (!opened) {
        trouble = opened.failure().sentence;
        return;
    }
    opened->day = to_words(*parse_day(opened->day));
    begin(std::move(*opened));
    keep_now();
}

void EntryDesk::put_aside() {
    if (writing()) return;
    put_aside_ = std::move(draft);
    begin(fresh_draft());
    keep_now();
}

void EntryDesk::bring_back() {
    if (writing() || !put_aside_) return;
    EntryDraft back = std::move(*put_aside_);
    put_aside_.reset();
    if (!draft.blank()) put_aside_ = std::move(draft);
    begin(std::move(back));
    keep_now();
}

std::optional<EntryId> EntryDesk::take_written() {
    return std::exchange(written_, std::nullopt);
}

bool EntryDesk::take_replaced() {
    return std::exchange(replaced_, false);
}

} // namespace fettle::ui

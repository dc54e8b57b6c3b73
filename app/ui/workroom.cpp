#include "ui/workroom.h"

#include "base/quantity.h"
#include "base/text.h"
#include "desk/places.h"
#include "notebook/part_life.h"
#include "notebook/photos.h"
#include "notebook/vehicles.h"
#include "notebook/weather.h"
#include "ui/day_words.h"
#include "ui/overlay.h"

#include <imgui.h>
#include <imgui_internal.h>

#include <algorithm>

namespace fettle::ui {
namespace {

constexpr int kMostNamed = 200; // files in a report

std::string air_words(const Weather& weather) {
    return weather.temperature_c ? said_number(*weather.temperature_c) + " °C" : "";
}

std::string humidity_words(const Weather& weather) {
    return weather.humidity ? said_number(*weather.humidity * 100) + " %" : "";
}

// What was typed for the day; blank fields leave their figure out.
Result<Weather> read_weather(const std::string& air, const std::string& humidity) {
    Weather weather;
    if (!trim(air).empty()) {
        auto read = parse_quantity(air, "temperature", "°C");
        if (!read) return read.failure();
        weather.temperature_c = read->si - 273.15;
    }
    if (!trim(humidity).empty()) {
        auto read = parse_quantity(humidity, "ratio", "%");
        if (!read) return read.failure();
        weather.humidity = read->si;
    }
    return weather;
}

void draw_taken_report(Page& page, const desk::TakeInReport& report) {
    int number = 0;
    const auto list = [&](const char* what, const std::vector<desk::NotTaken>& files) {
        if (files.empty()) return;
        words(page, what);
        for (const desk::NotTaken& file : files) {
            if (number == kMostNamed) return;
            fine_print(page, safe_utf8(file.file.filename().string()), Role::ink);
            note(page, "report." + std::to_string(number++),
                 safe_utf8(file.file.filename().string()), file.sentence);
            fine_print(page, file.sentence);
        }
    };
    list("Not readable, left out", report.unreadable);
    list("Taken in, but incomplete", report.damaged);
    list("Sidecars that could not be read", report.sidecars_left);
    if (!report.tags_without_part.empty()) {
        words(page, "Tags that are on no part yet");
        const std::string tags = join(report.tags_without_part, ", ");
        fine_print(page, tags + ": add the part on Parts, then press P on Photos.", Role::ink);
        note(page, "report.tags", tags);
    }
}

// The last in the list; the keys F1 to F12 are taken.
constexpr Chord kBookChord{'B', true}, kKeepingChord{'G', true};

// F1 and on; F9 folds the entry away.
Chord screen_chord(std::size_t number) {
    const int key = static_cast<int>(Key::f1) + static_cast<int>(number);
    return {key >= static_cast<int>(Key::f9) ? key + 1 : key};
}

} // namespace

Workroom::Workroom(Notebook& book, calc::Catalogue& sheets, const Settings& settings)
    : book_(book),
      work_(settings.wake),
      reading_(book, settings.wake, settings.large_from),
      pixels_(book, {.wake = settings.wake,
                     .surface = settings.surface,
                     .decode_program = desk::decode_program()}),
      desk_(book, sheets, work_),
      context_{.book = book, .sheets = sheets, .pixels = pixels_, .draft = desk_.draft},
      job_(book, settings.wake),
      watch_(settings.wake),
      out_(book, settings.wake),
      writing_(book, settings.wake),
      keeping_(book, settings.wake),
      carrying_(book, settings.wake),
      as_found_(book.opening_notice()),
      light_(settings.light),
      surface_(settings.surface) {
    context_.side = &reading_;
    context_.take_in = [this](std::vector<std::filesystem::path> paths) {
        take_in(std::move(paths));
    };
    context_.give_out = [this](const OutAsk& ask) { out_.start(ask); };
    context_.write_book = [this](const BookAsk& ask) { writing_.start(ask); };
    context_.exchange = [this](const CarryAsk& ask) { carrying_.start(ask); };
    context_.watch = [this](const std::filesystem::path& folder) { watch(folder); };
    context_.stop_watching = [this] { watch({}); };
    if (const auto folder = watched_folder(book); folder && !folder->empty()) watch_.start(*folder);
}

Workroom::~Workroom() = default;

std::vector<Screen> Workroom::screens(const Headline& headline) {
    std::vector<Screen> all;
    const auto add = [&all](const char* key, const char* label, std::function<void(Page&)> draw,
                            const std::string& count = {}) {
        all.push_back({key, label, screen_chord(all.size()), count, std::move(draw)});
    };
    add("bench", "Bench", [this](Page& page) { draw_bench(page, context_, bench_); });
    add("log", "Log", [this](Page& page) { draw_log(page, context_, desk_, work_, log_); });
    add(
        "photos", "Photos", [this](Page& page) { draw_photos(page, context_, photos_); },
        untied_photos());
    add("parts", "Parts", [this](Page& page) { draw_parts(page, context_, work_, parts_); });
    add("tasks", "Tasks", [this](Page& page) { draw_tasks(page, context_, tasks_); });
    add(
        "sent_out", "Sent out",
        [this](Page& page) { draw_sent_out(page, context_, work_, sent_out_); }, sent_out_said());
    add("marks", "Marks", [this](Page& page) { draw_marks(page, context_, marks_); });
    add("sheets", "Worked sheets",
        [this](Page& page) { draw_sheets(page, context_, work_, sheets_); });
    add("money", "Money", [this](Page& page) { draw_money(page, context_, money_); });
    add("people", "People", [this](Page& page) { draw_people(page, context_, people_); });
    // The function keys are all given; what comes from here on has a letter of its own.
    all.push_back({"book", "Build book", kBookChord, "", [this](Page& page) {
                       draw_book(page, context_, work_, surface_, book_pages_);
                   }});
    all.push_back({"keeping", "Safe keeping", kKeepingChord, "",
                   [this](Page& page) { draw_keeping(page, context_, keeping_, kept_); }});
    all.push_back({"two_machines", "Two machines", kTwoMachines, headline.to_settle,
                   [this](Page& page) { draw_two_machines(page, context_, machines_); }});
    return all;
}

std::vector<std::string> Workroom::screen_keys() {
    std::vector<std::string> keys;
    for (const Screen& screen : screens({}))
        keys.push_back(screen.key);
    return keys;
}

std::vector<std::pair<std::string, Place>> Workroom::further_places() const {
    std::vector<std::pair<std::string, Place>> places{
        {"positions", {.screen = "parts", .view = "positions"}},
        {"missing", {.screen = "parts", .view = "missing"}}};
    // The position with the most parts to choose among, and the part with the longest life.
    std::map<PositionId, int> choices;
    std::pair<std::size_t, PartId> longest, lot, split;
    if (const auto parts = list_parts(book_))
        for (const Part& part : *parts) {
            if (part.position) ++choices[part.position];
            if (part.used > 0) lot.second = part.id;
            if (part.split_on) split.second = part.id;
            if (const auto life = life_of(book_, part.id); life && life->size() > longest.first)
                longest = {life->size(), part.id};
        }
    const auto most =
        std::ranges::max_element(choices, {}, [](const auto& choice) { return choice.second; });
    if (most != choices.end())
        places.push_back({"position", {"parts", most->first.value, 0, 0, "positions"}});
    for (const auto& [name, id] :
         {std::pair{"part", longest.second}, std::pair{"part-lot", lot.second},
          std::pair{"part-split", split.second}})
        if (id) places.push_back({name, {"parts", id.value}});
    return places;
}

Result<Workroom::Headline> Workroom::read_headline(const Notebook& book, Day day) {
    Headline headline;
    auto vehicles = list_vehicles(book);
    if (!vehicles) return vehicles.failure();
    for (const Vehicle& vehicle : *vehicles)
        headline.title += (headline.title.empty() ? "" : " · ") + vehicle.name;
    headline.next_undo = book.next_undo();
    headline.next_redo = book.next_redo();
    auto differences = count_differences(book);
    if (!differences) return differences.failure();
    headline.to_settle = to_settle(*differences);
    auto weather = weather_on(book, day);
    if (!weather) return weather.failure();
    headline.air = air_words(*weather);
    headline.humidity = humidity_words(*weather);
    return headline;
}

const std::string& Workroom::untied_photos() {
    return untied_.of(book_, 0, [this](int) -> Result<std::string> {
        auto untied = count_untied_photos(book_);
        if (!untied) return untied.failure();
        return *untied > 0 ? std::to_string(*untied) + " untied" : std::string();
    });
}

const std::string& Workroom::sent_out_said() {
    return out_said_.of(book_, today(), [this](Day day) -> Result<std::string> {
        auto consignments = list_consignments(book_, day);
        if (!consignments) return consignments.failure();
        return sent_out_count(*consignments, day);
    });
}

ShellShown Workroom::shown() {
    const Headline& headline =
        headline_.of(book_, today(), [this](const Day& day) { return read_headline(book_, day); });
    ShellShown shown;
    shown.title = headline.title;
    shown.screens = screens(headline);
    shown.entry_title = entry_title(desk_.draft);
    shown.draw_entry = [this](Page& page) {
        draw_entry_panel(page, context_, desk_, work_, panel_);
    };
    shown.last_act = headline.next_undo;
    shown.can_undo = !headline.next_undo.empty();
    shown.next_redo = headline.next_redo;
    shown.air = headline.air;
    shown.humidity = headline.humidity;
    shown.day_error = day_error_;
    shown.trouble = context_.trouble.empty() ? headline_.failure() : context_.trouble;
    shown.watching = context_.watched;
    shown.work = work_under_way();
    tell_report(shown);
    return shown;
}

std::optional<Work> Workroom::work_under_way() const {
    if (job_.running()) return Work{job_.doing(), job_.share(), true};
    if (out_.running()) return Work{out_.doing(), out_.share(), true};
    if (writing_.running()) return Work{writing_.doing(), writing_.share(), true};
    if (carrying_.running()) return Work{carrying_.doing(), carrying_.share(), true};
    if (keeping_.running()) return Work{keeping_.doing(), keeping_.share(), true};
    return std::nullopt;
}

void Workroom::tell_report(ShellShown& shown) const {
    if (report_) {
        shown.report = summary_of(*report_);
        shown.report_unfolds = !report_->unreadable.empty() || !report_->damaged.empty() ||
                               !report_->sidecars_left.empty() ||
                               !report_->tags_without_part.empty();
    } else if (given_out_) {
        shown.report = summary_of(*given_out_);
        shown.report_unfolds = !given_out_->report.left_out.empty();
    } else if (written_) {
        shown.report = summary_of(*written_);
        shown.report_unfolds = !written_->report.unreadable.empty();
    } else if (carried_) {
        shown.report = carried_->words;
        shown.report_unfolds = !carried_->left_out.empty();
    } else if (!as_found_.empty()) {
        shown.report = "the log of the last acts was lost or damaged";
        shown.report_unfolds = true;
    }
}

void Workroom::close_report() {
    if (report_)
        report_.reset();
    else if (given_out_)
        given_out_.reset();
    else if (written_)
        written_.reset();
    else if (carried_)
        carried_.reset();
    else
        as_found_.clear();
}

void Workroom::set_day() {
    day_error_.clear();
    const auto weather = read_weather(shell_.air_typed, shell_.humidity_typed);
    if (weather) {
        const Done set = set_weather(book_, today(), *weather);
        if (!set) day_error_ = set.failure().sentence;
    } else {
        day_error_ = weather.failure().sentence;
    }
    shell_.setting_day = !day_error_.empty();
}

// The one whose progress is shown.
void Workroom::stop_work() {
    if (job_.running())
        job_.stop();
    else if (out_.running())
        out_.stop();
    else if (writing_.running())
        writing_.stop();
    else if (carrying_.running())
        carrying_.stop();
    else
        keeping_.stop();
}

void Workroom::answer(const ShellAsked& asked) {
    if (asked.set_day) set_day();
    if (asked.stop) stop_work();
    if (asked.stop_watching) watch({});
    if (asked.undo) context_.went_well(book_.undo());
    if (asked.redo) context_.went_well(book_.redo());
    if (asked.entry_opened) panel_.take_caret = true;
    if (asked.light) light_ = light_ == Light::day ? Light::night : Light::day;
    if (asked.unfold_report) report_unfolded_ = !report_unfolded_;
    if (asked.close_report) close_report();
}

void Workroom::find(Page& page, const ShellAsked& asked) {
    const Noted* field = page.reg.find("find");
    if (!field) return;
    const auto place = draw_find_results(
        page, context_, {shell_.find, asked.find_edited, asked.find_entered, field->rect}, find_);
    if (place) context_.go = place;
}

void Workroom::take_carried() {
    auto done = carrying_.take_finished();
    if (!done || !context_.went_well(*done)) return;
    carried_ = std::move(**done);
    report_unfolded_ = false;
    if (carried_->differences > 0) context_.go = Place{.screen = "two_machines"};
}

void Workroom::take_report() {
    take_kept(keeping_, kept_);
    take_carried();
    if (auto given = out_.take_finished(); given && context_.went_well(*given)) {
        given_out_ = std::move(**given);
        report_unfolded_ = false;
    }
    if (auto written = writing_.take_finished(); written && context_.went_well(*written)) {
        written_ = std::move(**written);
        if (written_->told_until &&
            context_.went_well(keep_told_until(book_, *written_->told_until)))
            book_pages_.told_until = written_->told_until;
        report_unfolded_ = false;
    }
    auto finished = job_.take_finished();
    if (!finished) return;
    report_unfolded_ = false;
    if (!context_.went_well(*finished)) return;
    // What lay in a watched folder already is no news.
    const desk::TakeInReport& report = **finished;
    if (job_.was_watched() && report.taken.empty() && report.unreadable.empty()) return;
    report_ = std::move(**finished);
}

// Instead of the folder before; a blank one: none.
void Workroom::watch(const std::filesystem::path& folder) {
    if (folder.empty())
        watch_.stop();
    else
        watch_.start(folder);
    context_.went_well(keep_watched_folder(book_, folder.string()));
}

// Hands over what has appeared, once a frame.
void Workroom::watch_on() {
    job_.start(watch_.take_found(), true);
    if (const auto failure = watch_.take_failure()) context_.trouble = failure->sentence;
    context_.watched = watch_.running() ? safe_utf8(watch_.folder().string()) : std::string();
}

// Photos are taken in; a folder is watched while its line is open; a table is a parts list.
void Workroom::take_dropped(InputQueue& input) {
    std::vector<std::filesystem::path> dropped;
    for (const std::string& path : input.take_dropped())
        dropped.emplace_back(path);
    std::error_code error;
    const bool is_folder = dropped.size() == 1 && std::filesystem::is_directory(dropped[0], error);
    if (is_folder && photos_.intake.watching && shell_.screen == "photos") {
        photos_.intake.watching = false;
        watch(dropped[0]);
        return;
    }
    if (dropped.size() == 1 && lower_ascii(dropped[0].extension().string()) == ".csv") {
        shell_.screen = "parts";
        open_list(parts_, dropped[0]);
        return;
    }
    take_in(std::move(dropped));
}

void Workroom::draw_report(Page& page) {
    const bool any = report_ || given_out_ || written_ || carried_ || !as_found_.empty();
    if (!any || !report_unfolded_) return;
    const float width = page.px(640);
    const float bottom = ImGui::GetIO().DisplaySize.y - page.px(56);
    const Overlay sheet(page, "report",
                        {.x = page.px(Measure::kMargin) + width,
                         .y = bottom,
                         .width = width,
                         .most_height = bottom - page.px(96),
                         .from_below = true});
    if (report_) {
        draw_taken_report(page, *report_);
    } else if (given_out_) {
        words(page, "Left out");
        for (const auto& [photo, sentence] : given_out_->report.left_out)
            fine_print(page, sentence);
    } else if (written_) {
        words(page, "Could not be read");
        for (const auto& sentence : written_->report.unreadable)
            fine_print(page, sentence);
    } else if (!carried_) {
        words(page, "As this notebook was found");
        fine_print(page, as_found_, Role::ink);
        note(page, "report.as_found", as_found_);
    } else {
        words(page, "Left out");
        for (const auto& [name, why] : carried_->left_out)
            fine_print(page, name + ": " + why);
    }
    if (sheet.pressed_beside()) report_unfolded_ = false;
}

void Workroom::settle() {
    reading_.settle();
    pixels_.settle();
    work_.settle();
}

void Workroom::open_sheet(const std::string& id) {
    shell_.screen = "sheets";
    sheets_.open = id;
}

void Workroom::show_tasks(bool as_picture) {
    shell_.screen = "tasks";
    tasks_.writing = false;
    tasks_.drawn = as_picture;
}

void Workroom::show(const Place& place) {
    shell_.screen = place.screen;
    if (place.screen == "log") log_.show = {place.record};
    if (place.screen == "photos") lead_to(photos_, place);
    if (place.screen == "parts") lead_to(parts_, place);
    if (place.screen == "tasks") lead_to(tasks_, place);
    if (place.screen == "sent_out") lead_to(sent_out_, place);
    if (place.screen == "marks") lead_to(marks_, place);
    if (place.screen == "money") lead_to(money_, place);
    if (place.screen == "people") lead_to(people_, place);
    if (place.screen == "book") lead_to(book_pages_, place);
}

void Workroom::after_frame() {
    desk_.tick(ImGui::GetTime(), std::exchange(context_.draft_edited, false),
               ImGui::GetIO().WantTextInput);
    if (const auto written = desk_.take_written()) log_.show = *written;
    if (desk_.take_replaced()) {
        // A field still being written in would put its letters into the new draft.
        ImGui::ClearActiveID();
        panel_.forms.clear();
    }
    if (std::exchange(context_.write_on, false)) shell_.entry_open = panel_.take_caret = true;
    if (auto place = std::exchange(context_.go, std::nullopt)) show(*place);
}

void Workroom::frame(Page& page, InputQueue& input) {
    pixels_.receive();
    take_report();
    take_dropped(input);
    watch_on();
    const ShellAsked asked = draw_shell(page, shown(), shell_);
    answer(asked);
    find(page, asked);
    draw_report(page);
    after_frame();
}

} // namespace fettle::ui

#include "ui/workroom.h"

#include "base/quantity.h"
#include "base/text.h"
#include "desk/places.h"
#include "notebook/part_life.h"
#include "notebook/photos.h"
#include "notebook/vehicles.h"
#include "notebook/weather.h"
#include "ui/widgets/day_words.h"
#include "ui/widgets/overlay.h"

#include <imgui.h>
#include <imgui_internal.h>

#include <algorithm>

namespace fettle::ui {
namespace {

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

// The last in the list; the keys F1 to F12 are taken.
constexpr Chord kPeopleChord{'O', true}, kBookChord{'B', true}, kKeepingChord{'G', true};
constexpr float kScales[] = {kLeastScale, 0.9F, 1, 1.1F, 1.25F, 1.5F, 1.75F, 2, kMostScale};

// F2 and on: F1 lists the keys, F9 folds the entry away.
Chord screen_chord(std::size_t number) {
    const int key = static_cast<int>(Key::f2) + static_cast<int>(number);
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
      light_(settings.state.light),
      text_scale_(settings.state.text_scale),
      surface_(settings.surface) {
    context_.side = &reading_;
    context_.taking_in = job_.one_at_a_time();
    context_.take_in = [this](std::vector<std::filesystem::path> paths) {
        take_in(std::move(paths));
    };
    context_.give_out = [this](const OutAsk& ask) { out_.start(ask); };
    context_.write_book = [this](const BookAsk& ask) { writing_.start(ask); };
    context_.exchange = [this](const CarryAsk& ask) { carrying_.start(ask); };
    context_.watch = [this](const std::filesystem::path& folder) { watch(folder); };
    context_.stop_watching = [this] { watch({}); };
    marks_.torch.surface = settings.surface;
    marks_.torch.wake = settings.wake;
    shell_.screen = settings.state.screen;
    shell_.entry_open = settings.state.entry_open;
    shell_.entry_width = settings.state.entry_width;
    for (const auto& [key, table] : tables(*this))
        if (const auto left = settings.state.tables.find(key); left != settings.state.tables.end())
            *table = left->second;
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
    // The function keys are all given; what comes from here on has a letter of its own.
    all.push_back({"people", "People", kPeopleChord, "",
                   [this](Page& page) { draw_people(page, context_, people_); }});
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
        {"rebuild", {.screen = "bench", .view = "rebuild"}},
        {"positions", {.screen = "parts", .view = "positions"}},
        {"missing", {.screen = "parts", .view = "missing"}},
        {"torch-set", {.screen = "marks", .view = "torch"}}};
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
    const auto count = [](const Notebook& book, int) -> Result<std::string> {
        auto untied = count_untied_photos(book);
        if (!untied) return untied.failure();
        return *untied > 0 ? std::to_string(*untied) + " untied" : std::string();
    };
    return untied_.beside(&reading_, book_, 0, count);
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
    shown.draft_state = draft_state(desk_);
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
    shown.text_scale = text_scale_;
    tell_report(shown);
    return shown;
}

RoomState Workroom::state() const {
    RoomState state{.light = light_,
                    .text_scale = text_scale_,
                    .screen = shell_.screen,
                    .entry_open = shell_.entry_open,
                    .entry_width = shell_.entry_width};
    for (const auto& [key, table] : tables(*this))
        state.tables[key] = *table;
    return state;
}

std::optional<Work> Workroom::work_under_way() const {
    if (job_.running()) return Work{job_.doing(), job_.share(), true};
    if (out_.running()) return Work{out_.doing(), out_.share(), true};
    if (writing_.running()) return Work{writing_.doing(), writing_.share(), true};
    if (carrying_.running()) return Work{carrying_.doing(), carrying_.share(), true};
    if (keeping_.running()) return Work{keeping_.doing(), keeping_.share(), true};
    // Where it is looked at it tells of itself.
    if (marks_.torch.running() && shell_.screen != "marks")
        return Work{marks_.torch.work->doing(), marks_.torch.work->share(), true};
    return std::nullopt;
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
    else if (keeping_.running())
        keeping_.stop();
    else if (marks_.torch.work)
        marks_.torch.work->stop();
}

void Workroom::answer(const ShellAsked& asked) {
    if (asked.set_day) set_day();
    if (asked.stop) stop_work();
    if (asked.stop_watching) watch({});
    if (asked.undo) context_.went_well(book_.undo());
    if (asked.redo) context_.went_well(book_.redo());
    if (asked.entry_opened) panel_.take_caret = true;
    if (asked.light) light_ = light_ == Light::day ? Light::night : Light::day;
    if (asked.keys) keys_.open = !keys_.open;
    change_size(asked);
    if (asked.unfold_report) report_unfolded_ = !report_unfolded_;
    if (asked.close_report) close_report();
}

void Workroom::change_size(const ShellAsked& asked) {
    const auto after = std::ranges::upper_bound(kScales, text_scale_);
    const auto before = std::ranges::lower_bound(kScales, text_scale_);
    if (asked.larger && after != std::end(kScales)) text_scale_ = *after;
    if (asked.smaller && before != std::begin(kScales)) text_scale_ = *std::prev(before);
    if (asked.as_first) text_scale_ = 1;
}

void Workroom::find(Page& page, const ShellAsked& asked) {
    const Noted* field = page.reg.find("find");
    if (!field) return;
    const auto place = draw_find_results(
        page, context_, {shell_.find, asked.find_edited, asked.find_entered, field->rect}, find_);
    if (place) context_.go = place;
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
    if (place.screen == "bench") lead_to(bench_, place);
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
        panel_.named = {};
        panel_.at_caret = {};
    }
    if (std::exchange(context_.write_on, false)) {
        show_entry(shell_);
        panel_.take_caret = true;
    }
    if (auto place = std::exchange(context_.go, std::nullopt)) show(*place);
}

void Workroom::frame(Page& page, InputQueue& input) {
    hear_keys_page(keys_);
    pixels_.receive();
    take_report();
    take_dropped(input);
    watch_on();
    const ShellAsked asked = draw_shell(page, shown(), shell_);
    answer(asked);
    find(page, asked);
    draw_report(page);
    draw_keys_page(page, keys_);
    after_frame();
}

} // namespace fettle::ui

#include "desk/demo.h"

#include "calc/run_sheet.h"
#include "desk/demo_within.h"
#include "desk/measuring.h"
#include "desk/take_in.h"
#include "desk/torch_marks.h"
#include "desk/worked.h"
#include "notebook/condition_steps.h"
#include "notebook/marks_compared.h"
#include "notebook/part_pieces.h"
#include "notebook/parts.h"
#include "notebook/people.h"
#include "notebook/photos.h"
#include "notebook/tasks.h"
#include "notebook/vehicles.h"
#include "notebook/weather.h"

#include <fstream>

namespace fettle::desk {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

std::optional<double> number(const json& record, const char* field) {
    auto found = record.find(field);
    if (found == record.end() || found->is_null()) return std::nullopt;
    return found->get<double>();
}

// Writes the scenario record by record and remembers what its names stand for.
class Telling {
  public:
    Telling(Notebook& notebook, calc::Catalogue& sheets) : book_(notebook), sheets_(sheets) {}

    void tell(const json& scenario) {
        tell_vehicles(scenario);
        for (const auto& position : scenario.at("positions"))
            tell_position(position);
        tell_makers(scenario.at("makers"));
        for (const auto& contact : scenario.at("contacts"))
            must(keep_contact(book_, {.name = contact.at("name"), .note = text(contact, "note")}),
                 "contact");
        for (const auto& part : scenario.at("parts"))
            tell_part(part);
        tell_tasks(scenario.at("tasks"));
        for (const auto& photo : must(list_photos(book_), "photos"))
            photos_[photo.original_name] = photo.id;
        for (const auto& tie : scenario.at("ties"))
            must(tie_photos(book_, {photo(tie.at("photo"))}, part(tie.at("part")),
                            must(from_word<Stage>(text(tie, "stage")), "tie")),
                 "tie");
        for (const auto& mark : scenario.at("marks"))
            tell_mark(mark);
        for (const auto& limits : scenario.at("limits"))
            must(set_limits(book_, sheets_,
                            {position(limits.at("position")), limits.at("feature"),
                             limits.at("typed").get<calc::TypedInputs>()}),
                 "limits of " + text(limits, "feature"));
        for (const auto& measured : scenario.at("measurements"))
            tell_measurement(measured);
        for (const auto& entry : scenario.at("entries"))
            tell_entry(entry);
        tell_deliveries(scenario.at("tasks"), tell_sent_out(book_, scenario, {parts_, photos_}));
        tell_money(book_, scenario, parts_, tasks_);
        if (const auto hours = number(scenario, "hours_today"))
            must(set_hours_of_day(book_, today(), hours), "hours of today");
    }

  private:
    PartId part(const std::string& tag) const { return named(parts_, tag, "part"); }
    PhotoId photo(const std::string& name) const { return named(photos_, name, "photo"); }
    TaskId task(const std::string& id) const { return named(tasks_, id, "task"); }
    PositionId position(const std::string& number) const {
        return named(positions_, number, "position");
    }

    void tell_vehicles(const json& scenario) {
        const auto& ours = scenario.at("vehicle");
        vehicle_ = must(list_vehicles(book_), "vehicle").front().id;
        must(set_vehicle(book_, {.id = vehicle_,
                                 .name = ours.at("name"),
                                 .maker = text(ours, "maker"),
                                 .year = ours.at("year").get<int>(),
                                 .note = text(ours, "note")}),
             "vehicle");
        for (const auto& other : scenario.at("other_vehicles"))
            others_[other.at("name")] =
                must(add_vehicle(book_, {.name = other.at("name"), .note = text(other, "note")}),
                     "vehicle");
    }

    void tell_position(const json& told) {
        const std::string number = told.at("number");
        positions_[number] = must(add_position(book_, {.vehicle = vehicle_,
                                                       .group = told.at("group"),
                                                       .number = number,
                                                       .name = told.at("name"),
                                                       .quantity = told.at("quantity"),
                                                       .spec = text(told, "spec")}),
                                  "position " + number);
    }

    void tell_part(const json& told) {
        const std::string record = "part " + text(told, "tag");
        Part part;
        part.tag = text(told, "tag");
        part.name = told.at("name");
        if (auto number = text(told, "position"); !number.empty()) part.position = position(number);
        auto other = text(told, "vehicle");
        part.vehicle = other.empty() ? vehicle_ : named(others_, other, "vehicle");
        part.origin = must(from_word<Origin>(text(told, "origin")), record);
        part.condition = must(from_word<Condition>(text(told, "condition")), record);
        part.decision = must(from_word<Decision>(text(told, "decision")), record);
        part.maker = text(told, "maker");
        part.place = text(told, "place");
        part.from = text(told, "from");
        if (const auto& cost = told.at("cost"); !cost.is_null())
            part.cost = Money{cost.at("minor"), cost.at("currency")};
        part.quantity = told.at("quantity");
        if (auto date = text(told, "date"); !date.empty())
            part.acquired = must(parse_day(date), record);
        part.note = text(told, "note");
        part.used = told.value("used", 0);
        if (auto tag = text(told, "within"); !tag.empty()) part.within = named(parts_, tag, "part");
        // A part with steps came as it was found, and got so far day by day.
        const auto steps = told.value("steps", json::array());
        if (!steps.empty()) part.condition = Condition::as_found;
        const PartId id = parts_[part.tag] = must(add_part(book_, part), record).id;
        for (const auto& step : steps)
            must(set_condition(book_, id,
                               must(from_word<Condition>(step.at(0).get<std::string>()), record),
                               must(parse_day(step.at(1).get<std::string>()), record)),
                 record);
        if (!told.contains("pieces")) return;
        std::vector<NewPiece> pieces;
        for (const auto& piece : told.at("pieces"))
            pieces.push_back(must(parse_piece(piece.get<std::string>()), record));
        must(split_part(book_, id, pieces, must(parse_day(text(told, "split")), record)), record);
    }

    // Tasks may need one that stands after them: all are added first, their needs then.
    void tell_tasks(const json& told) {
        for (const auto& each : told) {
            const std::string id = each.at("id");
            Task task{.vehicle = vehicle_,
                      .title = each.at("title"),
                      .note = text(each, "note"),
                      .state = must(from_word<TaskState>(text(each, "state")), "task " + id),
                      .estimate_hours = number(each, "estimate_hours"),
                      .least_temperature_c = number(each, "least_temperature"),
                      .waits_for = text(each, "waits_for")};
            if (auto date = text(each, "done_on"); !date.empty())
                task.done_on = must(parse_day(date), "task " + id);
            tasks_[id] = must(keep_task(book_, task), "task " + id);
        }
        for (const auto& each : told) {
            auto needing = must(task_by_id(book_, task(each.at("id"))), "task");
            for (const auto& needed : each.at("needs"))
                needing.needs.push_back(task(needed));
            for (const auto& needed : each.at("positions"))
                needing.positions.push_back(
                    {position(needed.at("position")),
                     must(from_word<Condition>(text(needed, "condition")), "task")});
            must(keep_task(book_, needing), "task " + text(each, "id"));
        }
    }

    // What tasks wait to come; they are told before what is sent out.
    void tell_deliveries(const json& told,
                         const std::map<std::string, ConsignmentId>& consignments) {
        for (const auto& each : told) {
            if (!each.contains("deliveries")) continue;
            auto waiting = must(task_by_id(book_, task(each.at("id"))), "task");
            for (const auto& name : each.at("deliveries"))
                waiting.deliveries.push_back(named(consignments, name, "consignment"));
            must(keep_task(book_, waiting), "task " + text(each, "id"));
        }
    }

    void tell_makers(const json& makers) {
        for (const auto& maker : makers)
            must(keep_maker(book_, {.name = maker.at("name"),
                                    .sign = text(maker, "sign"),
                                    .note = text(maker, "note")}),
                 "maker");
        for (const auto& vehicle : must(list_vehicles(book_), "vehicles")) {
            std::vector<std::string> on;
            for (const auto& maker : makers)
                for (const auto& name : maker.at("on"))
                    if (name == vehicle.name) on.push_back(maker.at("name"));
            must(set_makers_on(book_, vehicle, on), "makers of " + vehicle.name);
        }
    }

    void tell_mark(const json& told) {
        const auto& box = told.at("region");
        Mark mark{.photo = photo(told.at("photo")),
                  .region = {box.at(0), box.at(1), box.at(2), box.at(3)},
                  .reading = told.at("reading"),
                  .maker = text(told, "maker"),
                  .sure = must(from_word<Sureness>(text(told, "sure")), "mark")};
        if (auto tag = text(told, "part"); !tag.empty()) mark.part = part(tag);
        const std::string record = "mark " + mark.reading;
        if (told.contains("torch"))
            mark.seen_with = must(seen_with_torch({}, torch_set(told.at("torch"), record)), record);
        must(keep_mark(book_, mark), record);
    }

    // As torch_marks.h has it, but for the photos, which go by their names here.
    TorchRecipe torch_set(json told, const std::string& record) {
        for (auto& name : told.at("photos"))
            name = photo(name).value;
        return must(torch_recipe_from_json(told.dump()), record);
    }

    void tell_measurement(const json& told) {
        const std::string record = "measurement of " + text(told, "part");
        must(measure(book_, sheets_,
                     {part(told.at("part")), told.at("feature"),
                      told.at("inputs").get<calc::TypedInputs>(),
                      must(parse_day(text(told, "date")), record), text(told, "note")}),
             record);
    }

    void tell_entry(const json& told) {
        const std::string date = told.at("date");
        const std::string record = "entry of " + date;
        Entry entry{.day = must(parse_day(date), record),
                    .hours = number(told, "hours"),
                    .text = told.at("text")};
        for (const auto& tag : told.at("parts"))
            entry.parts.push_back(part(tag));
        for (const auto& id : told.at("tasks"))
            entry.tasks.push_back(task(id));
        for (const auto& name : told.at("photos"))
            entry.photos.push_back({photo(name), Stage::during});
        for (const auto& worked : told.at("worked"))
            entry.results.push_back(to_record(must(
                work_at(book_, sheets_, text(worked, "sheet"),
                        worked.at("inputs").get<calc::TypedInputs>(), {entry.day, entry.tasks}),
                record)));
        must(write_entry(book_, entry), record);
        if (const auto& weather = told.at("weather"); !weather.is_null()) {
            const Weather day{number(weather, "temperature"), number(weather, "humidity")};
            must(set_weather(book_, entry.day, day), record);
            // The demo's last evening is the reader's today.
            must(set_weather(book_, today(), day), record);
        }
    }

    Notebook& book_;
    calc::Catalogue& sheets_;
    VehicleId vehicle_;
    std::map<std::string, VehicleId> others_;
    std::map<std::string, PositionId> positions_;
    std::map<std::string, PartId> parts_;
    std::map<std::string, TaskId> tasks_;
    std::map<std::string, PhotoId> photos_;
};

Result<json> read_scenario(const fs::path& assets) {
    std::ifstream in(assets / "scenario.json");
    auto scenario = json::parse(in, nullptr, false);
    if (scenario.is_discarded())
        return Failure{FailureKind::not_found, "The demo's scenario cannot be read: " +
                                                   (assets / "scenario.json").string() + "."};
    return scenario;
}

} // namespace

Result<Notebook>
make_demo(const fs::path& folder, const fs::path& assets, calc::Catalogue& sheets,
          const std::function<void(std::size_t, std::size_t, const std::string&)>& progress) {
    auto scenario = read_scenario(assets);
    if (!scenario) return scenario.failure();
    auto book = Notebook::create(folder, "Quernmore Drover");
    if (!book) return book;
    auto report = take_in(*book, {.paths = {assets / "photos"}, .progress = progress});
    if (!report) return report.failure();
    if (!report->unreadable.empty())
        return Failure{FailureKind::damaged, report->unreadable.front().sentence};
    try {
        Telling(*book, sheets).tell(*scenario);
        // The parts whose tags were read have only been made since.
        must(propose_runs(*book), "tags");
    } catch (const Faulty& faulty) {
        return faulty.failure;
    } catch (const json::exception& error) {
        return Failure{FailureKind::damaged, "The demo's scenario lacks something.", error.what()};
    }
    return book;
}

} // namespace fettle::desk

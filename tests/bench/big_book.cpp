#include "bench/big_book.h"

#include "bench/photo_files.h"
#include "notebook/consignments.h"
#include "notebook/costs.h"
#include "notebook/entries.h"
#include "notebook/marks.h"
#include "notebook/parts.h"
#include "notebook/people.h"
#include "notebook/photos.h"
#include "notebook/tasks.h"
#include "notebook/vehicles.h"
#include "photos/hashing.h"

#include <array>
#include <random>
#include <set>

namespace fettle::benchmarks {
namespace {

using std::chrono::days;
using std::chrono::sys_days;

constexpr std::array kThings = {
    "spring hanger", "king pin",   "stub axle",    "brake shoe",   "hub",          "wheel rim",
    "shackle bolt",  "drag link",  "steering arm", "track rod",    "half shaft",   "pinion",
    "crown wheel",   "side gear",  "bearing cup",  "gearbox lid",  "selector",     "clutch plate",
    "flywheel",      "water pump", "radiator",     "fan blade",    "manifold",     "carburettor",
    "float",         "jet",        "valve",        "tappet",       "push rod",     "rocker",
    "camshaft",      "crankshaft", "main bearing", "sump",         "oil strainer", "dynamo",
    "starter",       "headlamp",   "horn",         "wing stay",    "door hinge",   "window frame",
    "tailboard",     "bed plank",  "chassis rail", "cross member", "rivet",        "shim",
    "split pin",     "castle nut"};
constexpr std::array kSides = {"", "left ", "right ", "front ", "rear ", "upper ", "lower "};
constexpr std::array kGroups = {"Front axle", "Rear axle", "Engine",  "Gearbox",
                                "Steering",   "Brakes",    "Cab",     "Bed",
                                "Frame",      "Springs",   "Cooling", "Electrical"};
constexpr std::array kPlaces = {"shelf 1",   "shelf 2", "shelf 3",       "bench drawer",
                                "oil bath",  "loft",    "quarry shed",   "tin under the bench",
                                "back wall", "crate 4", "on the chassis"};
constexpr std::array kDid = {"stripped", "cleaned", "measured", "wire brushed", "blasted",
                             "primed",   "painted", "fitted",   "freed",        "heated",
                             "drew",     "pressed", "shimmed",  "reamed",       "honed",
                             "packed",   "turned",  "filed",    "soaked",       "photographed"};
constexpr std::array kFound = {"Pitted under the rust but sound.",
                               "The thread is gone for two turns; the rest is good.",
                               "Wear is even all round.",
                               "Old paint below the grease, dark green.",
                               "A crack runs out from the oil hole.",
                               "Came off with heat and patience.",
                               "No play left after the new bush.",
                               "The stamp reads clearly once the scale is off.",
                               "Two rivets sheared, the plate is straight.",
                               "The left one is a replacement, not from the works.",
                               "Left to soak over night.",
                               "Stopped by the cold, primer wants 10 degrees."};
constexpr std::array kMakers = {"Quernmore", "Orrinvale Forge", "Pellworth Spindle"};
constexpr std::array kSigns = {"QM in a diamond", "OV in an oval", "PW over an arrow"};
constexpr std::array kReadings = {"QM", "OV", "PW", "QM 36", "OV 112", "PW 7", "25 CWT"};
constexpr std::array kFirms = {"Saltash Row Blasting", "Thornbeck Plating", "Ashgill Springs",
                               "Mossdale Castings", "Hollin Bank Stores"};
constexpr std::array kPurposes = {"blasting", "plating", "re-arching", "machining", "balancing"};
constexpr std::array kCosts = {"primer", "bushes", "castle nuts", "carriage", "linseed oil"};
constexpr int kYears = 6, kDays = kYears * 365;

constexpr int kWidth = 320, kHeight = 240, kPictures = 16;

class Filling {
  public:
    Filling(Notebook& book, const BigBook& wish) : book_(book), wish_(wish), random_(wish.seed) {}

    void fill() {
        people();
        list_positions_of_it();
        add_parts();
        take_photos();
        plan_tasks();
        tie_to_parts();
        write_log();
        read_marks();
        send_out();
        pay();
    }

  private:
    // Not std's distributions: they differ from one library to the next.
    int below(std::size_t most) { return static_cast<int>(random_() % most); }
    template <std::size_t n>
    std::string of(const std::array<const char*, n>& words) {
        return words[random_() % n];
    }
    template <class T>
    const T& any(const std::vector<T>& all) {
        return all[random_() % all.size()];
    }
    std::string thing() { return of(kSides) + of(kThings); }
    Day day() { return day_number(below(kDays)); }
    static Day day_number(int number) {
        return Day{sys_days{std::chrono::year{2020} / 11 / 1} + days{number}};
    }

    void people() {
        drover_ = must(list_vehicles(book_)).front().id;
        spares_ = must(add_vehicle(book_, {.name = "Drover, for spares", .year = 1937}));
        for (std::size_t i = 0; i < kMakers.size(); ++i)
            must(keep_maker(book_, {.name = kMakers[i], .sign = kSigns[i]}));
        for (const char* firm : kFirms)
            must(keep_contact(book_, {.name = firm}));
    }

    void list_positions_of_it() {
        for (int i = 0; i < wish_.positions(); ++i)
            positions_.push_back(
                must(add_position(book_, {.vehicle = i % 5 == 4 ? spares_ : drover_,
                                          .group = of(kGroups),
                                          .number = std::to_string(100 + i),
                                          .name = thing(),
                                          .quantity = 1 + below(4)})));
    }

    void add_parts() {
        for (int i = 0; i < wish_.parts(); ++i) {
            Part part;
            part.tag = std::string(1, static_cast<char>('A' + i % 26)) + std::to_string(1 + i / 26);
            part.name = thing();
            if (i % 3 != 2) part.position = any(positions_);
            if (i % 4 != 3) part.vehicle = i % 20 == 0 ? spares_ : drover_;
            part.origin = static_cast<Origin>(below(5));
            part.condition = static_cast<Condition>(below(8));
            part.decision = static_cast<Decision>(below(5));
            part.place = of(kPlaces);
            if (i % 2 == 0) part.maker = of(kMakers);
            if (i % 7 == 0) part.from = of(kFirms);
            if (i % 5 == 0) part.cost = Money{100 + below(20000), "GBP"};
            if (i % 10 == 0) part.quantity = 2 + below(30); // a bagged lot
            part.acquired = day();
            if (i % 6 == 0) part.note = of(kFound);
            parts_.push_back(must(add_part(book_, part)).id);
        }
    }

    // Evenings with a pause between them, a photo every minute or so.
    void take_photos() {
        make_pictures();
        const Step step = must(book_.new_step());
        for (int i = 0; i < wish_.photos; ++i) {
            Photo photo;
            const int number = static_cast<int>(std::int64_t{i} * kDays / wish_.photos);
            const Day on = day_number(number);
            const int minute = i % 180;
            char clock[40];
            std::snprintf(clock, sizeof clock, "T%02d:%02d:%02d", 18 + minute / 60, minute % 60,
                          below(60));
            char name[40];
            std::snprintf(name, sizeof name, "IMG_%06d.jpg", i + 1);
            photo.original_name = name;
            // A few are known by no time, as those that came by letter.
            if (i % 200 != 199) photo.taken = must(parse_moment(to_iso(on) + clock));
            photo.file = std::filesystem::path("photos") / std::to_string(int(on.year())) /
                         to_iso(on) / name;
            photo.format = "JPEG";
            photo.width = kWidth;
            photo.height = kHeight;
            photo.camera_make = "Orrinvale";
            photo.camera_model = i % 5 == 0 ? "Pocket" : "Plate";
            photo.sharpness = 0.2 + below(100) / 100.0;
            photo.likeness = (std::uint64_t{random_()} << 32) | random_();
            put_file(photo, i);
            photos_.push_back(must(add_photo(book_, photo, step)));
        }
    }

    void make_pictures() {
        if (!wish_.files) return;
        const auto scratch = book_.cache_folder() / "picture.jpg";
        for (int i = 0; i < kPictures; ++i) {
            write_photo(scratch, kWidth, kHeight, static_cast<std::uint32_t>(i + 1));
            std::ifstream in(scratch, std::ios::binary);
            pictures_.emplace_back(std::istreambuf_iterator<char>(in),
                                   std::istreambuf_iterator<char>());
        }
        std::filesystem::remove(scratch);
    }

    // One of the pictures with the photo's number in a comment behind its first marker, so that no
    // two files are alike (JPEG: ITU-T T.81, B.2.4.5, from memory).
    void put_file(Photo& photo, int number) {
        std::string comment = std::to_string(number);
        comment.insert(0, 10 - comment.size(), '0');
        photos::Hashing hashing;
        if (!wish_.files) {
            hashing.add(std::as_bytes(std::span(comment)));
            photo.hash = hashing.digits();
            photo.bytes = 1;
            return;
        }
        std::string bytes = pictures_[static_cast<std::size_t>(number % kPictures)];
        bytes.insert(2, std::string("\xff\xfe\x00\x0c", 4) + comment);
        hashing.add(std::as_bytes(std::span(bytes)));
        photo.hash = hashing.digits();
        photo.bytes = std::ssize(bytes);
        const auto file = book_.folder() / photo.file;
        std::filesystem::create_directories(file.parent_path());
        std::ofstream(file, std::ios::binary) << bytes;
    }

    void plan_tasks() {
        for (int i = 0; i < wish_.tasks(); ++i) {
            Task task{.title = of(kDid) + " the " + thing(), .estimate_hours = 0.5 + below(12)};
            if (i % 9 == 0) task.least_temperature_c = 10 + below(10);
            if (i % 11 == 0) task.waits_for = "an answer from " + of(kFirms);
            std::set<TaskId> needs;
            for (int need = below(3); need > 0 && i > 20; --need)
                needs.insert(tasks_[static_cast<std::size_t>(i - 1 - below(20))]);
            task.needs.assign(needs.begin(), needs.end());
            if (i % 3 == 0) task.positions = {{any(positions_), Condition::cleaned}};
            tasks_.push_back(must(keep_task(book_, task)));
            if (i % 2 == 0) must(set_task_state(book_, tasks_.back(), TaskState::done, day()));
        }
    }

    // Three photos in five show a part, four of one in a row.
    void tie_to_parts() {
        for (std::size_t i = 0; i + 4 <= photos_.size(); i += 4) {
            if (below(5) >= 3) continue;
            const auto at = photos_.begin() + static_cast<std::ptrdiff_t>(i);
            must(tie_photos(book_, {at, at + 4}, any(parts_), static_cast<Stage>(below(6))));
        }
    }

    void write_log() {
        for (int i = 0; i < wish_.entries(); ++i) {
            Entry entry{
                .day = day_number(static_cast<int>(std::int64_t{i} * kDays / wish_.entries()))};
            entry.hours = (1 + below(24)) / 4.0;
            entry.text = of(kDid) + " the " + thing() + ". " + of(kFound);
            for (int more = below(4); more > 0; --more)
                entry.text += "\n\nThen " + of(kDid) + " the " + thing() + ". " + of(kFound);
            std::set<PartId> parts;
            for (int more = below(4); more > 0; --more)
                parts.insert(any(parts_));
            entry.parts.assign(parts.begin(), parts.end());
            if (i % 3 == 0) entry.tasks = {any(tasks_)};
            const std::size_t near = std::size_t(i) * photos_.size() / std::size_t(wish_.entries());
            for (std::size_t more = 0; more < random_() % 3 && near + more < photos_.size(); ++more)
                entry.photos.push_back({photos_[near + more], Stage::during});
            must(write_entry(book_, entry));
        }
    }

    void read_marks() {
        for (int i = 0; i < wish_.photos / 50; ++i)
            must(keep_mark(book_, {.photo = any(photos_),
                                   .region = {below(200), below(150), 40, 30},
                                   .reading = of(kReadings),
                                   .maker = of(kMakers),
                                   .sure = static_cast<Sureness>(below(3)),
                                   .part = any(parts_)}));
    }

    void send_out() {
        for (int i = 0; i < wish_.consignments(); ++i) {
            const Day on = day();
            const auto id = must(keep_consignment(
                book_, {.firm = of(kFirms), .purpose = of(kPurposes), .sent_on = on}));
            for (int more = 1 + below(12); more > 0; --more) {
                // Some are away already: those are left out.
                (void)put_on(book_, id, {.part = any(parts_), .without_evidence = "a trial"});
            }
            const auto whole = must(consignment_by_id(book_, id));
            if (i % 10 == 0 || whole.items.empty()) continue;
            Receipt receipt{.on = Day{sys_days{on} + days{14}}, .condition = Condition::cleaned};
            for (const ConsignmentItem& item : whole.items)
                receipt.items.push_back({item.part});
            must(receive(book_, id, receipt));
        }
    }

    void pay() {
        for (int i = 0; i < wish_.photos / 25; ++i) {
            Cost cost{.on = day(), .amount = {50 + below(9000), "GBP"}, .what = of(kCosts)};
            if (i % 3 == 0) cost.part = any(parts_);
            if (i % 3 == 1) cost.task = any(tasks_);
            if (i % 2 == 0) cost.paid_to = of(kFirms);
            must(keep_cost(book_, cost));
        }
    }

    Notebook& book_;
    const BigBook& wish_;
    std::mt19937 random_;
    VehicleId drover_, spares_;
    std::vector<PositionId> positions_;
    std::vector<PartId> parts_;
    std::vector<PhotoId> photos_;
    std::vector<TaskId> tasks_;
    std::vector<std::string> pictures_;
};

void set_synchronous(const Notebook& book, const std::string& how) {
    must(book.read([&](store::Database& database) {
        database.run_script("PRAGMA synchronous = " + how);
        return true;
    }));
}

} // namespace

Notebook make_big_book(const std::filesystem::path& folder, const BigBook& wish) {
    Notebook book = must(Notebook::create(folder, "Drover"));
    set_synchronous(book, "OFF");
    Filling(book, wish).fill();
    set_synchronous(book, "EXTRA"); // as store/database.cpp has it
    return book;
}

} // namespace fettle::benchmarks

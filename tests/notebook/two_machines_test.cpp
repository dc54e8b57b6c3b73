#include "two_machines.h"

using namespace fettle;

namespace {

struct TwoMachines {
    Desk desk;
    Notebook& garage = desk.book;
    Part hanger = desk.part("H7", "spring hanger");
    Notebook house = begun(desk.folder / "house", carried(garage));

    void exchange() {
        (void)met(garage, carried(house));
        (void)met(house, carried(garage));
    }
};

} // namespace

TEST_CASE("what a new machine meets first makes a whole copy of the notebook there") {
    TwoMachines two;
    CHECK(all_of(two.garage) == all_of(two.house));
    CHECK(must(part_tagged(two.house, "H7")).name == "spring hanger");
    CHECK(two.house.next_undo().empty());
    check_sound(two.house);
}

TEST_CASE("what each side writes goes to the other, and ids never meet") {
    TwoMachines two;
    const auto here = must(add_part(two.garage, {.tag = "A1", .name = "pin"}));
    const auto there = must(add_part(two.house, {.tag = "B1", .name = "bush"}));
    CHECK(here.id != there.id);
    two.exchange();
    CHECK(all_of(two.garage) == all_of(two.house));
    CHECK(must(part_tagged(two.house, "A1")).id == here.id);
    CHECK(must(part_tagged(two.garage, "B1")).id == there.id);
}

namespace {

// One round of two people's doings and of sets that arrive, are lost, cross or come twice.
void live(unsigned seed, int acts) {
    CAPTURE(seed);
    TwoMachines two;
    hurry(two.garage);
    hurry(two.house);
    std::mt19937 dice(seed);
    int tokens = 1;
    Hand here(two.garage, dice, tokens), there(two.house, dice, tokens);
    const auto roll = [&](int sides) {
        return std::uniform_int_distribution<int>(0, sides - 1)(dice);
    };
    std::vector<ToCarry> for_garage, for_house;
    const auto meet_any = [&](Notebook& book, std::vector<ToCarry>& sets) {
        if (sets.empty()) return;
        const auto& set = sets[static_cast<std::size_t>(roll(int(sets.size())))];
        const auto before = all_of(book);
        if (const auto fine = check_set(book, set.told); !fine) {
            CHECK(all_of(book) == before);
            return;
        }
        (void)met(book, set);
        check_sound(book);
        CHECK_FALSE(check_set(book, set.told)); // twice changes nothing
    };
    for (int turn = 0; turn < acts; ++turn) {
        if (roll(2))
            here.act();
        else
            there.act();
        switch (roll(16)) {
        case 0:
            for_house.push_back(carried(two.garage));
            break;
        case 1:
            for_garage.push_back(carried(two.house));
            break;
        case 2:
            meet_any(two.garage, for_garage);
            break;
        case 3:
            meet_any(two.house, for_house);
            break;
        }
    }
    two.exchange();
    std::map<std::string,int> kinds;
    must(two.garage.read([&](store::Database& d){ auto r=d.query("select kind||' '||tab||'.'||field from differences"); while(r.next()) ++kinds[r.get<std::string>(0)]; auto q=d.query("select 'same '||tab from same_rows"); while(q.next()) ++kinds[q.get<std::string>(0)]; return 0;}));
    for(auto&[k,c]:kinds) MESSAGE(seed<<" "<<k<<" "<<c);
    const auto one = all_of(two.garage), other = all_of(two.house);
    for (const auto& line : one)
        if (!other.contains(line)) MESSAGE("garage alone: " << line);
    for (const auto& line : other)
        if (!one.contains(line)) MESSAGE("house alone: " << line);
    REQUIRE(one == other);
    check_sound(two.garage);
    check_sound(two.house);
    auto kept = Hand::tokens_in(two.garage);
    kept.insert(here.gone().begin(), here.gone().end());
    kept.insert(there.gone().begin(), there.gone().end());
    for (int token = 1; token < tokens; ++token)
        if (const auto text = "w" + std::to_string(token) + "w";
            (here.written().contains(text) || there.written().contains(text)) &&
            !kept.contains(text))
            FAIL_CHECK("lost: " << text);
}

} // namespace

TEST_CASE(
    "whatever two people do and however it is carried, both copies end equal and nothing is lost") {
    for (unsigned seed = 1; seed <= 6; ++seed)
        live(seed, 150);
}

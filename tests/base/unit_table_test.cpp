#include "base/quantity.h"
#include "base/text.h"
#include "base/unit_conversion.h"
#include "base/unit_spellings.h"
#include "near.h"

#include <doctest/doctest.h>

#include <map>
#include <string>

using namespace fettle;

TEST_CASE("every spelling of the table finds its own unit, and no two units share one") {
    std::map<std::pair<std::string, std::string>, std::string> owners;
    auto claim = [&](std::string_view kind, std::string_view key, std::string_view owner) {
        const auto [place, fresh] =
            owners.insert({{std::string(kind), lower_ascii(key)}, std::string(owner)});
        CAPTURE(key);
        CHECK((fresh || place->second == owner));
    };
    for (const UnitSpelling& row : unit_table()) {
        claim(row.kind, unit_key(row.unit), row.unit);
        CHECK(find_unit(row.kind, row.unit).unit == &row);
        CHECK(find_unit(row.kind, unit_label(row.kind, row.unit)).unit ==
              (row.unit == "1" ? nullptr : &row));
        for (const auto other : split(row.others, ' ')) {
            if (other.empty()) continue;
            CAPTURE(other);
            CHECK(unit_key(other) == other);
            claim(row.kind, other, row.unit);
            CHECK(find_unit(row.kind, other).unit == &row);
        }
    }
}

TEST_CASE("every unit of the table converts to the SI unit of its kind and back") {
    for (const UnitSpelling& row : unit_table()) {
        CAPTURE(row.unit);
        const auto si = unit_to_si(3.7, row);
        REQUIRE(si.ok());
        CHECK(test::near(*unit_from_si(*si, row), 3.7, 1e-13));
    }
}

TEST_CASE("chains name units of their kind") {
    for (const UnitChain& chain : unit_chains()) {
        CHECK(find_unit(chain.kind, chain.shown_in).unit != nullptr);
        for (const auto unit : split(chain.units, ' ')) {
            REQUIRE(find_unit(chain.kind, unit).unit != nullptr);
            CHECK(find_unit(chain.kind, unit).unit->unit == unit);
        }
    }
}

TEST_CASE("unclear spellings are found before clear ones") {
    for (const UnclearSpelling& unclear : unclear_spellings()) {
        CHECK(find_kind(unclear.kind) != nullptr);
        for (const auto spelling : split(unclear.spellings, ' ')) {
            CAPTURE(spelling);
            CHECK(find_unit(unclear.kind, spelling).unclear == &unclear);
        }
    }
}

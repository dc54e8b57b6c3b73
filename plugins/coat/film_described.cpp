// The sheet coat.film, described, and a compute that moves values between host and sheet.
#include "coat/described.h"
#include "coat/film_sheet.h"

namespace fettle::coat {
namespace {

using namespace plugin;

enum Input : std::size_t {
    kDryFilm,
    kCoats,
    kSolids,
    kThinning,
    kLoss,
    kProfile,
    kAreaHow,
    kParts,
    kArea,
    kComb,
    kMostWet,
    kTin,
    kPack,
    kBaseParts,
    kHardenerParts,
    kPotLife,
    kSinceMixed
};

constexpr fettle_column kPartColumns[] = {
    choice_column("shape", "Shape", true, kShapes),
    column("length", "Length", "length", "m", true, 3),
    column("width", "Width or dia.", "length", "m", true, 3),
    column("depth", "Depth of a box", "length", "m", false, 3),
    column("pieces", "Pieces", "count", "", false, 3)};
constexpr auto kPartColumnList = pointers(kPartColumns);

constexpr fettle_input kInputs[] = {
    input(FETTLE_NUMBER,
          {.id = "dry_film",
           .label = "Dry film wanted",
           .help = "All coats of this paint together, from its data sheet: enamels 30 "
                   "to 60 µm, two-pack primers 50 to 100 µm are usual.",
           .quantity = "length",
           .unit = "µm",
           .preset = "80",
           .least = kFilmBounds.least,
           .greatest = kFilmBounds.greatest,
           .required = true,
           .continues = "same"}),
    input(FETTLE_NUMBER, {.id = "coats",
                          .label = "Coats",
                          .help = "How many coats make up that film. Blank takes one.",
                          .quantity = "count",
                          .unit = "",
                          .preset = "2",
                          .least = kCoatBounds.least,
                          .greatest = kCoatBounds.greatest,
                          .continues = "same"}),
    input(FETTLE_NUMBER, {.id = "solids",
                          .label = "Volume solids",
                          .help = "From the data sheet, by volume and not by weight; of the mixed "
                                  "paint for two packs. Enamels have 45 to 60 %.",
                          .quantity = "ratio",
                          .unit = "%",
                          .preset = "50",
                          .least = kShareBounds.least,
                          .greatest = kShareBounds.greatest,
                          .required = true,
                          .continues = "same"}),
    input(FETTLE_NUMBER,
          {.id = "thinning",
           .label = "Thinner added",
           .help = "Volume of thinner to volume of paint: 100 mL to a litre is 10 %. "
                   "Blank for none.",
           .quantity = "ratio",
           .unit = "%",
           .preset = "10",
           .least = kThinningBounds.least,
           .greatest = kThinningBounds.greatest,
           .continues = "same"}),
    input(FETTLE_NUMBER, {.id = "loss",
                          .label = "Loss",
                          .help = "Share of the paint that stays in pot, brush and air: brush 5 to "
                                  "10 %, spray gun 30 to 60 % on small parts.",
                          .quantity = "ratio",
                          .unit = "%",
                          .preset = "10",
                          .least = kLossBounds.least,
                          .greatest = kLossBounds.greatest,
                          .continues = "same"}),
    input(FETTLE_NUMBER, {.id = "profile",
                          .label = "Film that fills the blast profile",
                          .help = "Extra dry film for the first coat on blasted steel: 10 µm on a "
                                  "fine, 25 on a medium, 40 on a coarse profile (ISO 19840, from "
                                  "memory). Blank for smooth steel.",
                          .quantity = "length",
                          .unit = "µm",
                          .preset = "25",
                          .least = kProfileBounds.least,
                          .greatest = kProfileBounds.greatest}),
    choice_input({.id = "area_by",
                  .label = "Area from",
                  .help = "A list of parts by rule and count, or an area you know already.",
                  .preset = "list of parts"},
                 kAreaBy),
    table_input({.id = "parts",
                 .label = "Parts to paint",
                 .help = "A row each. face: one side of a plate; sheet: both sides; round: outside "
                         "of a tube or bar, by diameter; box: four sides of a rail or bar.",
                 .preset = "box | 3.6 | 0.05 | 0.15 | 2; round | 0.9 | 0.045 | | 3; "
                           "sheet | 0.35 | 0.2 | | 4",
                 .when = "area_by=list of parts"},
                kPartColumnList),
    input(FETTLE_NUMBER, {.id = "area",
                          .label = "Area to paint",
                          .help = "Both sides of sheet count. A channel or angle: the length along "
                                  "its outline times its length.",
                          .quantity = "area",
                          .unit = "m2",
                          .preset = "3.5",
                          .least = kAreaBounds.least,
                          .greatest = kAreaBounds.greatest,
                          .when = "area_by=known area"}),
    input(FETTLE_LIST,
          {.id = "comb",
           .label = "Teeth of your comb",
           .help = "The figures stamped on the wet film comb, split by ;. Combs differ. "
                   "Blank when there is none.",
           .quantity = "length",
           .unit = "µm",
           .preset = "25; 50; 75; 100; 125; 150; 175; 200; 250; 300",
           .least = kFilmBounds.least,
           .greatest = kFilmBounds.greatest,
           .continues = "same"}),
    input(FETTLE_NUMBER, {.id = "most_wet",
                          .label = "Most wet film in one coat",
                          .help = "From the data sheet: above it the paint runs. Blank is not "
                                  "judged.",
                          .quantity = "length",
                          .unit = "µm",
                          .preset = "120",
                          .least = kFilmBounds.least,
                          .greatest = kFilmBounds.greatest,
                          .continues = "same"}),
    input(FETTLE_NUMBER, {.id = "tin",
                          .label = "Size of tin",
                          .help = "What the paint is sold in, base and hardener together. Blank "
                                  "gives the volume alone.",
                          .quantity = "volume",
                          .unit = "L",
                          .preset = "1",
                          .least = kTinBounds.least,
                          .greatest = kTinBounds.greatest}),
    choice_input({.id = "pack",
                  .label = "The paint comes as",
                  .help = "One tin that dries by itself, or base and hardener to be mixed.",
                  .preset = "one pack",
                  .continues = "same"},
                 kPacks),
    input(FETTLE_NUMBER, {.id = "base_parts",
                          .label = "Parts of base",
                          .help = "By volume, as printed on the tin: the 4 of 4 to 1.",
                          .quantity = "number",
                          .unit = "",
                          .preset = "4",
                          .least = kMixBounds.least,
                          .greatest = kMixBounds.greatest,
                          .when = "pack=two pack",
                          .continues = "same"}),
    input(FETTLE_NUMBER, {.id = "hardener_parts",
                          .label = "Parts of hardener",
                          .help = "By volume, as printed on the tin: the 1 of 4 to 1.",
                          .quantity = "number",
                          .unit = "",
                          .preset = "1",
                          .least = kMixBounds.least,
                          .greatest = kMixBounds.greatest,
                          .when = "pack=two pack",
                          .continues = "same"}),
    input(FETTLE_NUMBER,
          {.id = "pot_life",
           .label = "Pot life",
           .help = "From the data sheet at the temperature of the mixed paint; about "
                   "half as long for every 10 K warmer, and shorter in a full pot.",
           .quantity = "time",
           .unit = "h",
           .preset = "4",
           .least = kTimeBounds.least,
           .greatest = kTimeBounds.greatest,
           .when = "pack=two pack",
           .continues = "same"}),
    input(FETTLE_NUMBER, {.id = "since_mixed",
                          .label = "Mixed since",
                          .help = "Time since hardener went into base. Blank before mixing.",
                          .quantity = "time",
                          .unit = "h",
                          .preset = "",
                          .least = kSinceBounds.least,
                          .greatest = kSinceBounds.greatest,
                          .when = "pack=two pack"})};
constexpr auto kInputList = pointers(kInputs);

constexpr const char* kBalance = "volume balance: dry = wet × solids/(1 + thinner)";
constexpr const char* kCover = "coverage = solids / dry film (1604 VS/mil, 1000 VS/µm)";
constexpr const char* kVolume = "area × dry film / solids / (1 - loss)";

constexpr fettle_output kOutputs[] = {
    number_output({"wet_film", "Wet film of a coat", "length", "µm", "thou", 3, kBalance}),
    text_output({"comb", "On the comb", "the teeth typed"}),
    number_output({"dry_coat", "Dry film of a coat", "length", "µm", "thou", 3, kBalance}),
    number_output({"area", "Area", "area", "m2", "ft2", 3, "length times outline, row by row"}),
    number_output({"paint", "Paint, all coats", "volume", "L", "US gal", 3, kVolume}),
    number_output({"per_coat", "Paint, one coat", "volume", "L", "US gal", 3, kVolume}),
    number_output(
        {"thinner", "Thinner, all coats", "volume", "L", "US gal", 2, "share of the paint"}),
    text_output({"tins", "To buy", "paint over size of tin, rounded up"}),
    number_output({"coverage", "Coverage of a coat, m² a litre", "number", "", "", 3, kCover}),
    number_output(
        {"coverage_us", "Coverage of a coat, ft² a US gallon", "number", "", "", 3, kCover}),
    number_output({"base", "Base for one coat", "volume", "L", "US gal", 3, "parts by volume"}),
    number_output(
        {"hardener", "Hardener for one coat", "volume", "L", "US gal", 3, "parts by volume"})};
constexpr auto kOutputList = pointers(kOutputs);

constexpr fettle_column kAreaColumns[] = {column("row", "Row", "count", "", false, 3),
                                          column("area", "Area", "area", "m2", false, 3),
                                          column("paint", "Paint", "volume", "L", false, 3)};
constexpr auto kAreaColumnList = pointers(kAreaColumns);
constexpr fettle_column kCoatColumns[] = {
    column("coat", "Coat", "count", "", false, 2),
    column("wet", "Wet film", "length", "µm", false, 3),
    column("dry", "Dry film so far", "length", "µm", false, 3),
    column("paint", "Paint", "volume", "L", false, 3)};
constexpr auto kCoatColumnList = pointers(kCoatColumns);
constexpr fettle_table kTables[] = {answer_table("areas", "Area by area", kAreaColumnList),
                                    answer_table("coats", "Coat by coat", kCoatColumnList)};
constexpr auto kTableList = pointers(kTables);

constexpr fettle_axis kWetAxis = axis("Wet film", "length", "µm", "thou");
constexpr fettle_axis kDryAxis = axis("Dry film", "length", "µm", "thou");
constexpr fettle_chart kCharts[] = {chart("film", "Dry film over wet film", kWetAxis, kDryAxis)};
constexpr auto kChartList = pointers(kCharts);

constexpr std::array<const char*, 4> kSources = {
    "Volume balance of the film; coating makers' sheets print it as 1000 VS/DFT and 1604 VS/DFT",
    "ISO 2808 (wet film comb; title from memory)",
    "ISO 19840 (film that fills a blasted profile, from memory)",
    "Common practice, no source: loss by brush and spray gun"};

constexpr const char* kCaution =
    "Solvent vapour burns and harms: air the room, no flame or spark, wear the mask the data sheet "
    "names, keep oily rags under water. Spraying two-pack paints with isocyanates needs air-fed "
    "masks "
    "and, in many places, licensed practice. Local codes limit solvents. The paint maker's sheet "
    "outranks this one.";

void give_answer(const fettle_sink* sink, const FilmAnswer& answer) {
    give_output(sink, "wet_film", answer.wet_film);
    give_output(sink, "comb", answer.comb);
    give_output(sink, "dry_coat", answer.dry_coat);
    give_output(sink, "area", answer.area);
    give_output(sink, "paint", answer.paint);
    give_output(sink, "per_coat", answer.per_coat);
    give_output(sink, "thinner", answer.thinner);
    give_output(sink, "tins", answer.tins);
    give_output(sink, "coverage", answer.coverage);
    give_output(sink, "coverage_us", answer.coverage_us);
    give_output(sink, "base", answer.base);
    give_output(sink, "hardener", answer.hardener);
    for (const PartArea& part : answer.parts)
        give_row(sink, "areas", {part.number, part.area, part.paint});
    for (const CoatRow& row : answer.rows)
        give_row(sink, "coats", {row.number, row.wet, row.dry_so_far, row.paint});
    give_picture(sink, answer.picture);
}

std::int32_t compute(const fettle_value* const* values, std::uint32_t count,
                     const fettle_sink* sink) {
    return guarded(count, kInputList.size(), sink, [&] {
        const FilmTyped typed{.dry_film = number(values[kDryFilm]),
                              .coats = number(values[kCoats]),
                              .solids = number(values[kSolids]),
                              .thinning = number(values[kThinning]),
                              .loss = number(values[kLoss]),
                              .profile = number(values[kProfile]),
                              .area_by = text(values[kAreaHow]),
                              .area = number(values[kArea]),
                              .parts = numbers(values[kParts]),
                              .comb = numbers(values[kComb]),
                              .most_wet = number(values[kMostWet]),
                              .tin = number(values[kTin]),
                              .pack = text(values[kPack]),
                              .base_parts = number(values[kBaseParts]),
                              .hardener_parts = number(values[kHardenerParts]),
                              .pot_life = number(values[kPotLife]),
                              .since_mixed = number(values[kSinceMixed])};
        return answered(sink, work_film(typed),
                        [&](const FilmAnswer& answer) { give_answer(sink, answer); });
    });
}

} // namespace

constinit const fettle_sheet kFilmSheet =
    sheet({.revision = 1,
           .id = "coat.film",
           .title = "Film thickness and litres",
           .answers = "How thick do I lay it on wet, and how much paint does it take?",
           .caution = kCaution,
           .smooth = true},
          kInputList, kOutputList, kTableList, kSources, compute, kChartList);

} // namespace fettle::coat

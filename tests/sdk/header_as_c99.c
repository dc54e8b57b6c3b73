/* A whole plugin in C99, against nothing but the header: it compiles, or the contract is broken. */
#include "fettle_plugin.h"

#include <stddef.h>

static int32_t double_it(const fettle_value *const *values, uint32_t count,
                         const fettle_sink *sink) {
    if (count != 1u) {
        sink->refuse(sink->context, "", "One value is expected.");
        return FETTLE_REFUSED;
    }
    sink->number(sink->context, "twice", 2.0 * values[0]->number);
    return FETTLE_DONE;
}

static const fettle_input kLength = {
    .struct_size = sizeof(fettle_input), .shape = FETTLE_NUMBER, .id = "length", .label = "Length",
    .help = "Any length.", .quantity = "length", .unit = "mm", .preset = "", .least = 0.0,
    .greatest = 10.0, .required = 1u, .choice_count = 0u, .choices = NULL, .column_count = 0u,
    .columns = NULL};
static const fettle_input *const kInputs[] = {&kLength};
static const fettle_output kTwice = {
    .struct_size = sizeof(fettle_output), .shape = FETTLE_NUMBER, .id = "twice", .label = "Twice",
    .quantity = "length", .unit = "mm", .inch = "in", .digits = 4u, .source = "arithmetic"};
static const fettle_output *const kOutputs[] = {&kTwice};
static const fettle_sheet kSheet = {
    .struct_size = sizeof(fettle_sheet), .revision = 1u, .id = "twice.length", .title = "Twice",
    .answers = "What is twice this length?", .caution = "", .input_count = 1u, .inputs = kInputs,
    .output_count = 1u, .outputs = kOutputs, .table_count = 0u, .tables = NULL, .source_count = 0u,
    .sources = NULL, .compute = double_it};
static const fettle_sheet *const kSheets[] = {&kSheet};
static const fettle_plugin kPlugin = {
    .struct_size = sizeof(fettle_plugin), .abi_version = FETTLE_ABI_VERSION, .id = "twice",
    .name = "Twice", .version = "1.0.0", .sheet_count = 1u, .sheets = kSheets};

const fettle_plugin *fettle_plugin_describe(uint32_t abi_version) {
    return abi_version == FETTLE_ABI_VERSION ? &kPlugin : NULL;
}

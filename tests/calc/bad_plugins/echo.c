/* A well-behaved plugin that writes down what it was handed, one input of every shape. */
#include "fettle_plugin.h"

#include <math.h>
#include <stddef.h>
#include <stdio.h>

static const char *const kChoices[] = {"as forged", "as rolled", "ground"};

static const fettle_column kLength = {sizeof(fettle_column), FETTLE_NUMBER, "length", "Length",
                                      "length", "in", 1, 0};
static const fettle_column kRadius = {sizeof(fettle_column), FETTLE_NUMBER, "radius", "Radius",
                                      "length", "in", 0, 0};
static const fettle_column *const kInColumns[] = {&kLength, &kRadius};

static const fettle_input kNumber = {sizeof(fettle_input), FETTLE_NUMBER, "number", "Number", "",
                                     "torque", "N.m", "", NAN, NAN, 0, 0, NULL, 0, NULL};
static const fettle_input kText = {sizeof(fettle_input), FETTLE_TEXT, "text", "Text", "",
                                   "", "", "", NAN, NAN, 0, 0, NULL, 0, NULL};
static const fettle_input kChoice = {sizeof(fettle_input), FETTLE_CHOICE, "choice", "Choice", "",
                                     "", "", "ground", NAN, NAN, 0, 3, kChoices, 0, NULL};
static const fettle_input kList = {sizeof(fettle_input), FETTLE_LIST, "list", "List", "",
                                   "length", "mm", "", NAN, NAN, 0, 0, NULL, 0, NULL};
static const fettle_input kTable = {sizeof(fettle_input), FETTLE_TABLE, "table", "Table", "",
                                    "", "", "", NAN, NAN, 0, 0, NULL, 2, kInColumns};
static const fettle_input *const kInputs[] = {&kNumber, &kText, &kChoice, &kList, &kTable};

static const fettle_output kHeard = {sizeof(fettle_output), FETTLE_TEXT, "heard", "Heard", "",
                                     "", "", 0, ""};
static const fettle_output kNever = {sizeof(fettle_output), FETTLE_NUMBER, "never", "Never written",
                                     "length", "mm", "in", 3, ""};
static const fettle_output *const kOutputs[] = {&kHeard, &kNever};

static const fettle_column kWhere = {sizeof(fettle_column), FETTLE_TEXT, "where", "Where", "",
                                     "", 0, 0};
static const fettle_column kValue = {sizeof(fettle_column), FETTLE_NUMBER, "value", "Value",
                                     "length", "mm", 0, 4};
static const fettle_column *const kOutColumns[] = {&kWhere, &kValue};
static const fettle_table kCells = {sizeof(fettle_table), "cells", "Cells", 2, kOutColumns};
static const fettle_table *const kTables[] = {&kCells};

static void give_cells(const fettle_value *value, const char *name, const fettle_sink *sink) {
    char where[80];
    for (uint32_t at = 0; value->given && at < value->rows * value->columns; ++at) {
        snprintf(where, sizeof where, "%s row %u column %u", name, (unsigned)(at / value->columns),
                 (unsigned)(at % value->columns));
        const fettle_cell row[2] = {{sizeof(fettle_cell), 0.0, where},
                                    {sizeof(fettle_cell), value->numbers[at], NULL}};
        sink->row(sink->context, "cells", row, 2);
    }
}

static int32_t back(const fettle_value *const *values, uint32_t count, const fettle_sink *sink) {
    char heard[200];
    snprintf(heard, sizeof heard, "%u inputs, number %s %.3f, text %s, choice %s", (unsigned)count,
             values[0]->given ? "given" : "blank", values[0]->given ? values[0]->number : 0.0,
             values[1]->given ? values[1]->text : "blank",
             values[2]->given ? values[2]->text : "blank");
    sink->text(sink->context, "heard", heard);
    give_cells(values[3], "list", sink);
    give_cells(values[4], "table", sink);
    sink->note(sink->context, FETTLE_INFO, "not UTF-8: \xff.");
    return FETTLE_DONE;
}

static const fettle_sheet kBack = {sizeof(fettle_sheet), 7, "echo.back", "What was handed over",
                                   "What arrives?", "Mind your ears.", 5, kInputs, 2, kOutputs, 1,
                                   kTables, 0, NULL, back};
static const fettle_sheet *const kSheets[] = {&kBack};
static const fettle_plugin kEcho = {sizeof(fettle_plugin), FETTLE_ABI_VERSION, "echo", "Echo",
                                    "2.1", 1, kSheets};

const fettle_plugin *fettle_plugin_describe(uint32_t abi_version) {
    return abi_version == FETTLE_ABI_VERSION ? &kEcho : NULL;
}

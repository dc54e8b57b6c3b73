/*
 * drill: an example of a calculation plugin in one file of C, with nothing but the contract's header.
 *
 *   cc -std=c99 -shared -fPIC -I PATH/TO/plugins/sdk drill.c -o drill.so
 *
 * Put drill.so into the program's own plugin folder of yours and start the program again. The file's
 * name is the plugin's id.
 */
#include "fettle_plugin.h"

#include <math.h>
#include <stddef.h>
#include <stdio.h>

static const double kPi = 3.14159265358979323846;

/* What the sheet asks for. The order counts: values[i] in drill_speed belongs to inputs[i]. */
enum { CUTTING_SPEED, DIAMETERS, STEPS };

static const fettle_input kCuttingSpeed = {
    .struct_size = sizeof(fettle_input),
    .shape = FETTLE_NUMBER,
    .id = "cutting_speed",
    .label = "Cutting speed",
    .help = "Speed of the drill's outer corner through the metal, from the drill maker's table.",
    .quantity = "speed",
    .unit = "m/min",
    .preset = "25",
    .least = 0.001,
    .greatest = 20.0,
    .required = 1,
};

static const fettle_input kDiameters = {
    .struct_size = sizeof(fettle_input),
    .shape = FETTLE_LIST,
    .id = "diameters",
    .label = "Drill diameters",
    .help = "One drill or several, measured across the lands.",
    .quantity = "length",
    .unit = "mm",
    .preset = "",
    .least = 0.0001,
    .greatest = 0.2,
    .required = 1,
};

static const fettle_input kSteps = {
    .struct_size = sizeof(fettle_input),
    .shape = FETTLE_LIST,
    .id = "steps",
    .label = "Spindle speeds of the machine",
    .help = "The speeds on the machine's plate; leave blank for a stepless drive.",
    .quantity = "frequency",
    .unit = "rpm",
    .preset = "",
    .least = 0.0,
    .greatest = NAN, /* no bound */
    .required = 0,
};

static const fettle_input *const kInputs[] = {&kCuttingSpeed, &kDiameters, &kSteps};

/* What it gives: one number for the first drill, one for the machine, a row for every drill. */
static const fettle_output kSpindle = {
    .struct_size = sizeof(fettle_output),
    .shape = FETTLE_NUMBER,
    .id = "spindle",
    .label = "Spindle speed, first drill",
    .quantity = "frequency",
    .unit = "rpm",
    .inch = "",
    .digits = 3,
    .source = "n = v / (pi d)",
};

static const fettle_output kSet = {
    .struct_size = sizeof(fettle_output),
    .shape = FETTLE_NUMBER,
    .id = "set",
    .label = "Speed to set, first drill",
    .quantity = "frequency",
    .unit = "rpm",
    .inch = "",
    .digits = 3,
    .source = "highest step not above the spindle speed",
};

static const fettle_output *const kOutputs[] = {&kSpindle, &kSet};

static const fettle_column kDiameterColumn = {
    .struct_size = sizeof(fettle_column),
    .shape = FETTLE_NUMBER,
    .id = "diameter",
    .label = "Drill",
    .quantity = "length",
    .unit = "mm",
    .digits = 4,
};

static const fettle_column kSpindleColumn = {
    .struct_size = sizeof(fettle_column),
    .shape = FETTLE_NUMBER,
    .id = "spindle",
    .label = "Spindle speed",
    .quantity = "frequency",
    .unit = "rpm",
    .digits = 3,
};

static const fettle_column *const kColumns[] = {&kDiameterColumn, &kSpindleColumn};

static const fettle_table kDrills = {
    .struct_size = sizeof(fettle_table),
    .id = "drills",
    .label = "Every drill",
    .column_count = 2,
    .columns = kColumns,
};

static const fettle_table *const kTables[] = {&kDrills};
static const char *const kSources[] = {"Definition of the cutting speed, v = pi d n"};

/* The arithmetic, apart from the adapter: m/s and m in, rev/s out. */
static double spindle_speed(double cutting_speed, double diameter) {
    return cutting_speed / (kPi * diameter);
}

static void give_step(const fettle_value *steps, double wanted, const fettle_sink *sink) {
    double best = -1.0;
    if (!steps->given) {
        sink->text(sink->context, "set", "stepless");
        return;
    }
    for (uint32_t i = 0; i < steps->rows; ++i)
        if (steps->numbers[i] <= wanted && steps->numbers[i] > best) best = steps->numbers[i];
    if (best >= 0.0)
        sink->number(sink->context, "set", best);
    else
        sink->text(sink->context, "set", "every step is too fast");
}

static int32_t drill_speed(const fettle_value *const *values, uint32_t count,
                           const fettle_sink *sink) {
    if (count != 3) {
        sink->refuse(sink->context, "", "The sheet has three inputs.");
        return FETTLE_REFUSED;
    }
    const double v = values[CUTTING_SPEED]->number;
    const fettle_value *diameters = values[DIAMETERS];
    const double first = spindle_speed(v, diameters->numbers[0]);
    char line[160];
    for (uint32_t i = 0; i < diameters->rows; ++i) {
        const double d = diameters->numbers[i];
        const double n = spindle_speed(v, d);
        const fettle_cell row[2] = {{sizeof(fettle_cell), d, NULL}, {sizeof(fettle_cell), n, NULL}};
        sink->row(sink->context, "drills", row, 2);
        snprintf(line, sizeof line, "n = v / (pi d) = %.4g m/min / (pi x %.4g mm) = %.4g rpm",
                 v * 60.0, d * 1e3, n * 60.0);
        sink->working(sink->context, line);
    }
    sink->number(sink->context, "spindle", first);
    give_step(values[STEPS], first, sink);
    return FETTLE_DONE;
}

static const fettle_sheet kSpeed = {
    .struct_size = sizeof(fettle_sheet),
    .revision = 1,
    .id = "drill.speed",
    .title = "Spindle speed for a drill",
    .answers = "How fast should the spindle turn for this drill and this metal?",
    .caution = "Clamp the work, tie nothing loose near the spindle, wear eye protection; keep to the "
               "drill maker's limits and the machine's own manual.",
    .input_count = 3,
    .inputs = kInputs,
    .output_count = 2,
    .outputs = kOutputs,
    .table_count = 1,
    .tables = kTables,
    .source_count = 1,
    .sources = kSources,
    .compute = drill_speed,
};

static const fettle_sheet *const kSheets[] = {&kSpeed};

static const fettle_plugin kDrill = {
    .struct_size = sizeof(fettle_plugin),
    .abi_version = FETTLE_ABI_VERSION,
    .id = "drill",
    .name = "Drilling",
    .version = "1.0.0",
    .sheet_count = 1,
    .sheets = kSheets,
};

const fettle_plugin *fettle_plugin_describe(uint32_t abi_version) {
    return abi_version == FETTLE_ABI_VERSION ? &kDrill : NULL;
}

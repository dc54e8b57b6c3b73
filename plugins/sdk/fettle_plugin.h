/*
 * fettle_plugin.h: the contract between Fettlebook and a calculation plugin.  C99, no dependency.
 *
 * A plugin is a shared library that exports one function, fettle_plugin_describe.  It returns a
 * constant description: which worked sheets there are, what each asks for and what it gives.  The
 * program draws the form from that description alone and calls the sheet's `compute`.
 *
 * Rules of the house
 *   - Nothing is owned across the line.  Descriptions are constant data that live as long as the
 *     library.  Values handed to `compute`, and texts handed to the sink, live for that call only.
 *   - Every struct begins with its size in bytes; set it with sizeof.  Later editions add members at
 *     the end only; whoever reads a struct trusts no member beyond its struct_size (FETTLE_HOLDS).
 *   - Lists are arrays of pointers, so that their elements may grow.
 *   - Numbers travel in SI units (metre, newton, pascal, kelvin, second, radian, kilogram ...).
 *     A text is UTF-8, ends in NUL and is never NULL unless its comment says so.
 *   - compute keeps no state: equal inputs, equal answers, whatever was asked before.  It opens no
 *     file, starts no thread, prints nothing and must not throw or longjmp out.
 *   - The library runs in a process of its own; a crash or an endless loop costs the calculation and
 *     nothing else.  Loading a library is running its code all the same: install only what you trust.
 */
#ifndef FETTLE_PLUGIN_H
#define FETTLE_PLUGIN_H

#include <stddef.h>
#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

/* The version of this contract.  A host asks for the one it speaks; a plugin that cannot serve it
 * returns NULL. */
#define FETTLE_ABI_VERSION 1u

/* Whether a struct that came across the line is long enough to hold this member. */
#define FETTLE_HOLDS(type, pointer, member)                                                        \
    ((pointer)->struct_size >= offsetof(type, member) + sizeof((pointer)->member))

/* Shapes of inputs, outputs and columns. */
#define FETTLE_NUMBER 1u /* one number with a kind of quantity */
#define FETTLE_TEXT 2u   /* free text, such as a thread's designation */
#define FETTLE_CHOICE 3u /* one of `choices`; handed over as text (inputs only) */
#define FETTLE_LIST 4u   /* several numbers of one kind of quantity (inputs only) */
#define FETTLE_TABLE 5u  /* rows of numbers, a kind of quantity for each column (inputs only) */

/* Levels of notes. */
#define FETTLE_INFO 1u    /* worth knowing */
#define FETTLE_CAUTION 2u /* somebody or something can come to harm if it is overlooked */
#define FETTLE_STOP 3u    /* do not use this result */
#define FETTLE_REACHED 4u /* what was to be reached is reached: the task can be called done */

/* How a series of points is drawn in a chart. */
#define FETTLE_LINE 1u   /* from point to point */
#define FETTLE_DASHED 2u /* the same, dashed: a limit, or what is wanted */
#define FETTLE_DOTS 3u   /* each point alone: readings */
#define FETTLE_BODY 4u   /* a closed outline: a piece drawn to scale */

/* What compute returns. */
#define FETTLE_DONE 0
#define FETTLE_REFUSED 1 /* the inputs cannot be calculated; sink->refuse has said why */

/*
 * Kinds of quantity, by name, with their SI unit:
 *   number (1)  count (1)  ratio (1, shown in %)  length (m)  area (m2)  volume (m3)  angle (rad)
 *   mass (kg)  force (N)  torque (N.m)  pressure (Pa)  spring_rate (N/m)  temperature (K)
 *   temperature_difference (K)  time (s)  frequency (Hz)  speed (m/s)  density (kg/m3)
 *   expansion (1/K)
 */

typedef struct fettle_column {
    uint32_t struct_size;
    uint32_t shape;       /* FETTLE_NUMBER, or in answers FETTLE_TEXT too */
    const char *id;       /* lower case, digits, underscore */
    const char *label;    /* heading, a word or two */
    const char *quantity; /* see above; "" for text */
    const char *unit;     /* a bare number is taken in this unit; shown in the heading */
    uint32_t required;    /* inputs: 1 when every row must fill it */
    uint32_t digits;      /* answers: significant digits shown */
    /* second edition */
    uint32_t choice_count;      /* a NUMBER column with choices holds words: the number is the */
    const char *const *choices; /* index of one, from 0; quantity is "count", unit "" */
} fettle_column;

typedef struct fettle_input {
    uint32_t struct_size;
    uint32_t shape;
    const char *id;       /* lower case, digits, underscore; never changes its meaning */
    const char *label;    /* as a person would say it */
    const char *help;     /* one or two sentences: what to measure, and how */
    const char *quantity; /* NUMBER and LIST */
    const char *unit;     /* NUMBER and LIST: a bare number is taken in this unit */
    const char *preset;   /* what a fresh sheet shows, as a person would type it; "" for nothing */
    double least;         /* SI, NUMBER and LIST; NAN: no bound */
    double greatest;      /* SI, NUMBER and LIST; NAN: no bound */
    uint32_t required;    /* 1: compute is not called while it is blank */
    uint32_t choice_count;
    const char *const *choices; /* CHOICE; else NULL */
    uint32_t column_count;
    const fettle_column *const *columns; /* TABLE; else NULL */
    /* second edition; each NULL or "" for none */
    const char *when;      /* "basis=yield|proof": asked only while the CHOICE input of that id
                              holds one of these; else hidden, and compute gets it as not given */
    const char *continues; /* TABLE: id of an answer's table with the same columns, whose rows in
                              the last kept result of this sheet on the same task are filled in.
                              Other shapes: "same", filled in as it was typed there */
    const char *day;       /* "air_temperature" or "humidity": filled in from the day's weather */
} fettle_input;

typedef struct fettle_output {
    uint32_t struct_size;
    uint32_t shape; /* FETTLE_NUMBER or FETTLE_TEXT */
    const char *id;
    const char *label;
    const char *quantity; /* "" for text */
    const char *unit;     /* metric unit it is shown in; "" for text */
    const char *inch;     /* unit shown beside it, for readers in inches; "" for none */
    uint32_t digits;      /* significant digits shown */
    const char *source;   /* where the formula comes from: standard or book with its number */
    /* second edition */
    const char *hands_to; /* "torque.tighten.thread": an input of a sheet, of this plugin or
                             another, that takes it on with one key; NULL or "" for none */
} fettle_output;

typedef struct fettle_table {
    uint32_t struct_size;
    const char *id;
    const char *label;
    uint32_t column_count;
    const fettle_column *const *columns;
} fettle_table;

/* Second edition: a picture of figures.  Points have x in the quantity of `x`, y in that of `y`. */
typedef struct fettle_axis {
    uint32_t struct_size;
    const char *label;    /* "Deflection"; "" where the picture needs none */
    const char *quantity; /* see above */
    const char *unit;     /* metric unit of its scale */
    const char *inch;     /* unit of its scale for readers in inches; "" for none */
} fettle_axis;

typedef struct fettle_chart {
    uint32_t struct_size;
    const char *id;
    const char *label;
    uint32_t to_scale; /* 1: both axes in one scale and no axes drawn, as on a workshop drawing */
    const fettle_axis *x;
    const fettle_axis *y;
} fettle_chart;

typedef struct fettle_point {
    double x; /* SI */
    double y;
} fettle_point;

/* One value typed by the user, in SI. */
typedef struct fettle_value {
    uint32_t struct_size;
    uint32_t given;        /* 0: left blank, nothing below is to be read */
    double number;         /* NUMBER */
    const char *text;      /* TEXT and CHOICE; else NULL */
    const double *numbers; /* LIST: rows numbers; TABLE: rows * columns, row by row, NAN for blank */
    uint32_t rows;
    uint32_t columns;      /* 1 for a LIST */
} fettle_value;

/* One cell of an answer's table: text where the column's shape is FETTLE_TEXT. */
typedef struct fettle_cell {
    uint32_t struct_size;
    double number;    /* SI */
    const char *text; /* NULL where the column holds numbers */
} fettle_cell;

/* Where compute puts its answer.  Call any member any number of times, passing `context` first. */
typedef struct fettle_sink {
    uint32_t struct_size;
    void *context;
    void (*number)(void *context, const char *output_id, double si);
    void (*text)(void *context, const char *output_id, const char *text);
    void (*row)(void *context, const char *table_id, const fettle_cell *cells, uint32_t count);
    void (*working)(void *context, const char *line); /* one line, with the numbers put in */
    void (*note)(void *context, uint32_t level, const char *text);
    /* Why compute returns FETTLE_REFUSED.  input_id: the field to blame, or "" for none alone. */
    void (*refuse)(void *context, const char *input_id, const char *sentence);
    /* second edition */
    void (*series)(void *context, const char *chart_id, const char *name, uint32_t look,
                   const fettle_point *points, uint32_t count); /* name "": not in the legend */
    void (*label)(void *context, const char *chart_id, double x, double y, const char *text);
} fettle_sink;

typedef struct fettle_sheet {
    uint32_t struct_size;
    uint32_t revision;   /* raised whenever equal inputs may give another answer */
    const char *id;      /* plugin id, dot, name: "shim.stack" */
    const char *title;   /* "Shim stack from the tin" */
    const char *answers; /* one line: the question it answers */
    const char *caution; /* the usual caution that always stands with the result; "" for none */
    uint32_t input_count;
    const fettle_input *const *inputs;
    uint32_t output_count;
    const fettle_output *const *outputs;
    uint32_t table_count;
    const fettle_table *const *tables;
    uint32_t source_count;
    const char *const *sources;
    /* values[i] belongs to inputs[i]; required ones are given and within their bounds. */
    int32_t (*compute)(const fettle_value *const *values, uint32_t count, const fettle_sink *sink);
    /* second edition */
    uint32_t smooth; /* 1: quick, and numbers follow the inputs without jumps.  The host may ask
                        again with each input moved by half its last typed decimal, and then shows
                        no more digits than the inputs justify */
    uint32_t chart_count;
    const fettle_chart *const *charts;
} fettle_sheet;

typedef struct fettle_plugin {
    uint32_t struct_size;
    uint32_t abi_version; /* FETTLE_ABI_VERSION the library was built with */
    const char *id;       /* "shim": equals the library's file name without ending */
    const char *name;     /* "Shims and backlash" */
    const char *version;  /* "1.0.0" */
    uint32_t sheet_count;
    const fettle_sheet *const *sheets;
} fettle_plugin;

#if defined(_WIN32)
#define FETTLE_EXPORT __declspec(dllexport)
#else
#define FETTLE_EXPORT __attribute__((visibility("default")))
#endif

/* The one exported function.  Quick and without side effects; NULL when abi_version is not served. */
FETTLE_EXPORT const fettle_plugin *fettle_plugin_describe(uint32_t abi_version);

#ifdef __cplusplus
}
#endif

#endif /* FETTLE_PLUGIN_H */

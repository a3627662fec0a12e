/* libfeed - the C interface. This header is the reference: what is written here is what holds.
 *
 * House rules, once for every function:
 *   - Each call returns a feed_code: FEED_OK (0) or what went wrong. A code keeps its number for
 * ever; treat one you do not know as a failure. Only the _free functions return nothing; they take
 * NULL.
 *   - Results come through pointers after the inputs. On failure they are set to NULL, 0 or NaN.
 *   - The last parameter, `error`, may be NULL. It is a struct of fixed size that you own: nothing
 * to free, nothing kept between calls. Start it from FEED_ERROR_INIT: with a struct_size of 0, or
 * one too small, no call could tell you anything, so each returns FEED_BAD_ARGUMENT and does
 * nothing.
 *   - Text in is UTF-8, ends with NUL, and is copied. Text out belongs to the handle named and
 * lives as long as it does, or, where said, for ever.
 *   - A struct starts with struct_size: set it to sizeof before the call. Later versions only
 * append fields, and a library of any later or earlier version reads and writes no further than
 * struct_size.
 *   - A struct that you fill has an initialiser, FEED_..._INIT: every field is then "not given".
 * Start from it, never from zeros: a zero is a value. Zeroed memory is refused where it would make
 * anything look harmless.
 *   - Units stand at the end of each name, the basis (wet or dry) in it. Fractions are kg per kg,
 * never per cent.
 *   - NaN and infinity are refused at the border, except that NaN in a range or an optional field
 * means "not given".
 *   - Nothing prints, reads files unless told to, keeps global or thread-local state, reads the
 * locale or throws.
 *   - Threads: a handle may be read by any number of threads at once; one thread at a time while a
 * function that takes it without const runs. Functions without handles may be called from any
 * thread.
 *   - An allocator, where a function takes one, serves the handle or text it makes; NULL means
 * malloc and free. Working memory of a call comes from the C++ run time and is given back before
 * the call returns or with the handle.
 */
#ifndef FEED_FEED_H
#define FEED_FEED_H

#include <math.h>
#include <stddef.h>
#include <stdint.h>

#if defined(_WIN32) && defined(FEED_SHARED)
#define FEED_API __declspec(dllimport)
#elif defined(__GNUC__)
#define FEED_API __attribute__((visibility("default")))
#else
#define FEED_API
#endif

#ifdef __cplusplus
extern "C" {
#endif

/* ------------------------------------------------------------------------------------------------
 * codes and errors */

typedef int32_t feed_code;
enum {
    FEED_OK = 0,
    FEED_FAILED = 1, /* anything without a code of its own */
    FEED_BAD_ARGUMENT =
        2, /* a null pointer, an index or enumerator that does not exist, a struct_size too small */
    FEED_OUT_OF_MEMORY = 3,
    FEED_NOT_A_NUMBER = 4, /* NaN or infinity where a finite number is due */
    FEED_OUT_OF_RANGE = 5,
    FEED_UNIT_MISSING = 6,
    FEED_UNIT_UNKNOWN = 7,
    FEED_PERCENT_SLIP = 8, /* per cent where a fraction is due, or the reverse */
    FEED_LOW_ABOVE_HIGH = 9,
    FEED_UNKNOWN_FEEDSTOCK = 10,
    FEED_AMBIGUOUS_FEEDSTOCK = 11,
    FEED_UNKNOWN_PROPERTY = 12,
    FEED_DUPLICATE_ENTRY = 13,
    FEED_MISSING_VALUE = 14, /* a number that is needed was not given and the table has none */
    FEED_SYNTAX = 15,
    FEED_UNKNOWN_KEY = 16,
    FEED_WRONG_TYPE = 17,
    FEED_WRONG_VERSION = 18,
    FEED_TOO_LARGE = 19,
    FEED_NOT_READABLE = 20,
    FEED_NOT_WRITABLE = 21,
    FEED_NOT_UTF8 = 22,
    FEED_NO_AMOUNT_FIXED = 23, /* a balance without a scale */
    FEED_CONTRADICTION = 24,
    FEED_EMPTY = 25,
    FEED_INTERNAL = 26,
    FEED_AMBIGUOUS_AMOUNT = 27 /* an amount with two readings; since 0.2 */
};

/* One problem. Texts end with NUL and are cut at their size. */
typedef struct feed_error {
    uint32_t struct_size;
    feed_code code;
    int32_t line;          /* from 1; 0 where there is no place */
    int32_t column;        /* from 1 */
    int32_t problem_count; /* how many problems the call found; this is the first */
    char field[96];        /* which input, in your words: "moisture_wet of shredded till roll" */
    char value[96];        /* what was given, with its unit */
    char allowed[160];     /* what is allowed */
    char message[400];     /* one sentence, with the likely slip where there is one */
} feed_error;
/* Start an error from this. */
#define FEED_ERROR_INIT \
    { sizeof(feed_error), FEED_OK, 0, 0, 0, "", "", "", "" }

/* Memory for handles and texts. `allocate` returns NULL when it cannot; alignment is a power of two
 * of at most 16. */
typedef struct feed_allocator {
    uint32_t struct_size;
    void* user;
    void* (*allocate)(void* user, size_t size, size_t alignment);
    void (*release)(void* user, void* memory);
} feed_allocator;
/* Start an allocator from this; both functions are needed. */
#define FEED_ALLOCATOR_INIT \
    { sizeof(feed_allocator), NULL, NULL, NULL }

/* A text made for you. Free with feed_text_free. */
typedef struct feed_text feed_text;

/* Gives the bytes of a text.
 *   text: the handle. data: set to the bytes, which end with NUL and live as long as the handle.
 * length: set to the number of bytes without NUL; may be NULL. Errors: FEED_BAD_ARGUMENT. Threads:
 * read. Since 0.1. */
FEED_API feed_code feed_text_get(const feed_text* text, const char** data, size_t* length,
                                 feed_error* error);
/* Frees a text; NULL is allowed. Threads: the only user of the handle. Since 0.1. */
FEED_API void feed_text_free(feed_text* text);

/* Gives the fixed name of a code ("out_of_range"); an unknown code gives "failed".
 *   name: set to text with static storage. code: any number. Errors: FEED_BAD_ARGUMENT.
 * Threads: any. Since 0.1. */
FEED_API feed_code feed_code_name(feed_code code, const char** name, feed_error* error);

/* ------------------------------------------------------------------------------------------------
 * versions */

#define FEED_VERSION_MAJOR 0
#define FEED_VERSION_MINOR 1
#define FEED_VERSION_PATCH 0
#define FEED_VERSION_NUMBER \
    (FEED_VERSION_MAJOR * 10000 + FEED_VERSION_MINOR * 100 + FEED_VERSION_PATCH)

typedef struct feed_version_info {
    uint32_t struct_size;
    uint32_t library_number;     /* major * 10000 + minor * 100 + patch, of the library that runs */
    int32_t table_layout;        /* version of the layout of the feedstock table */
    const char* library_version; /* "0.1.0"; static */
    const char* table_version;   /* version of its numbers; static */
    const char* table_sha256;    /* hash of its source files; static */
} feed_version_info;

/* Gives the versions of code, table and table layout.
 *   out: struct_size set by you. Errors: FEED_BAD_ARGUMENT. Threads: any. Since 0.1. */
FEED_API feed_code feed_version(feed_version_info* out, feed_error* error);

/* ------------------------------------------------------------------------------------------------
 * quantities */

/* What is known of a computed quantity. */
enum { FEED_KNOWN = 0, FEED_AT_LEAST = 1, FEED_UNKNOWN = 2 };
/* How good a number is: read in its source, derived by a named formula, recalled, a judgement. */
enum { FEED_GRADE_A = 0, FEED_GRADE_B = 1, FEED_GRADE_C = 2, FEED_GRADE_D = 3 };

/* A computed quantity. Where knowledge is FEED_AT_LEAST, value is a lower bound and covered (0 to
 * 1) the share of the mass whose property is known; where it is FEED_UNKNOWN the numbers are NaN.
 * This struct never grows. */
typedef struct feed_estimate {
    double value;
    double low;
    double high;
    double covered;
    int32_t knowledge;
    int32_t grade;
} feed_estimate;

/* ------------------------------------------------------------------------------------------------
 * feedstocks */

/* Properties; basis and unit of the stored number beside each. Numbers are never reused. */
enum {
    FEED_MOISTURE_WET = 0,                /* kg water per kg wet */
    FEED_CARBON_DRY = 1,                  /* kg organic carbon per kg dry */
    FEED_NITROGEN_DRY = 2,                /* kg total nitrogen per kg dry */
    FEED_CN_RATIO = 3,                    /* kg carbon per kg nitrogen */
    FEED_ASH_DRY = 4,                     /* kg per kg dry */
    FEED_LIGNIN_DRY = 5,                  /* kg per kg dry */
    FEED_FAT_DRY = 6,                     /* kg per kg dry */
    FEED_PROTEIN_WET = 7,                 /* kg per kg wet */
    FEED_FAT_WET = 8,                     /* kg per kg wet */
    FEED_CARBOHYDRATE_WET = 9,            /* kg per kg wet, fibre included */
    FEED_FIBRE_WET = 10,                  /* kg per kg wet */
    FEED_PH = 11,                         /* pH */
    FEED_TITRATABLE_ACIDITY_WET = 12,     /* kg citric acid per kg wet, titrated to pH 8.2 */
    FEED_ORGANIC_ACIDS_WET = 13,          /* kg citric equivalent per kg wet: an upper bound */
    FEED_NEUTRALISING_VALUE_WET = 14,     /* kg CaCO3 equivalent per kg as it is */
    FEED_SODIUM_WET = 15,                 /* kg per kg wet */
    FEED_POTASSIUM_WET = 16,              /* kg per kg wet */
    FEED_ELECTRICAL_CONDUCTIVITY = 17,    /* dS/m of the extract */
    FEED_BULK_DENSITY_LOOSE = 18,         /* kg wet per m3 */
    FEED_BULK_DENSITY_SETTLED = 19,       /* kg wet per m3 */
    FEED_WATER_HOLDING_CAPACITY_DRY = 20, /* kg water per kg dry */
    FEED_REFUSE_WET = 21,                 /* kg per kg as bought */
    FEED_LABILE_SHARE = 22,               /* kg per kg volatile solids */
    FEED_CELLULOSIC_SHARE = 23,           /* kg per kg volatile solids */
    FEED_LIGNIN_LIKE_SHARE = 24           /* kg per kg volatile solids */
};

/* Groups of the table. */
enum {
    FEED_GROUP_SCRAPS = 0,
    FEED_GROUP_BEDDINGS = 1,
    FEED_GROUP_MANURES = 2,
    FEED_GROUP_AMENDMENTS = 3,
    FEED_GROUP_WATER = 4,
    FEED_GROUP_GUARDED = 5
};
/* Roles: a bit each. */
enum { FEED_ROLE_SCRAPS = 1, FEED_ROLE_BEDDING = 2, FEED_ROLE_AMENDMENT = 4, FEED_ROLE_WATER = 8 };
/* May it be fed to a worm bin? */
enum { FEED_STANCE_FEED = 0, FEED_STANCE_FEED_LITTLE = 1, FEED_STANCE_AVOID = 2 };
/* Cautions: a bit each. */
enum {
    FEED_CAUTION_ACIDITY = 1 << 0,
    FEED_CAUTION_SALT = 1 << 1,
    FEED_CAUTION_OIL = 1 << 2,
    FEED_CAUTION_AMMONIA = 1 << 3,
    FEED_CAUTION_HEATING = 1 << 4,
    FEED_CAUTION_PATHOGEN = 1 << 5,
    FEED_CAUTION_SHARP = 1 << 6,
    FEED_CAUTION_PLASTIC_FILM = 1 << 7,
    FEED_CAUTION_PESTICIDE = 1 << 8,
    FEED_CAUTION_ALLIUM = 1 << 9,
    FEED_CAUTION_CITRUS_OIL = 1 << 10,
    FEED_CAUTION_DUST = 1 << 11,
    FEED_CAUTION_SEEDS_SPROUT = 1 << 12,
    FEED_CAUTION_MATTING = 1 << 13,
    FEED_CAUTION_CAUSTIC = 1 << 14,
    FEED_CAUTION_COATED = 1 << 15,
    FEED_CAUTION_MEAT_DAIRY = 1 << 16,
    FEED_CAUTION_PET_WASTE = 1 << 17,
    FEED_CAUTION_TREATED_MANURE = 1 << 18,
    FEED_CAUTION_LIME_DUST = 1 << 19
};

/* A material with properties, from the table or your own. Free with feed_feedstock_free; a handle
 * that took it keeps what it needs. */
typedef struct feed_feedstock feed_feedstock;

typedef struct feed_feedstock_info {
    uint32_t struct_size;
    const char* id; /* all texts live as long as the handle */
    const char* name;
    const char* part; /* which part a plant's name was taken for ("core"), or "" */
    const char* note;
    const char* preparation_hint;
    int32_t group;
    int32_t roles;
    int32_t stance;
    int32_t cautions;
    double most_wet_kg_per_kg_worms; /* most at a time, NaN where nothing special is said */
} feed_feedstock_info;

typedef struct feed_value {
    uint32_t struct_size;
    int32_t
        known;    /* 0: the property is unknown and the numbers are NaN; unknown never means zero */
    double value; /* these three in the unit of the property */
    double low;
    double high;
    int32_t grade;
    int32_t range_grade;
    const char* sources; /* `ID:place` pairs parted by blanks; static or as long as the handle */
    const char* method;  /* how it was obtained */
} feed_value;

/* Gives the number of feedstocks in the table.
 *   count: set to that number. Errors: FEED_BAD_ARGUMENT. Threads: any. Since 0.1. */
FEED_API feed_code feed_table_count(size_t* count, feed_error* error);

/* Makes a feedstock from a row of the table.
 *   row: from 0 to count - 1, rows sorted by id. allocator: or NULL. out: set to a new handle.
 * Errors: FEED_BAD_ARGUMENT, FEED_OUT_OF_RANGE, FEED_OUT_OF_MEMORY. Threads: any. Since 0.1. */
FEED_API feed_code feed_feedstock_at(size_t row, const feed_allocator* allocator,
                                     feed_feedstock** out, feed_error* error);

/* Makes a feedstock from a name or alias as a keeper would type it ("coffee grounds", "apples").
 *   words: UTF-8. A plant with several parts gives the part a caddy usually holds;
 * feed_feedstock_describe says which. out: set to a new handle, yours to free. Errors:
 * FEED_UNKNOWN_FEEDSTOCK (message has the nearest names), FEED_BAD_ARGUMENT,
 * FEED_OUT_OF_MEMORY. Threads: any. Since 0.1. */
FEED_API feed_code feed_feedstock_look_up(const char* words, const feed_allocator* allocator,
                                          feed_feedstock** out, feed_error* error);

/* Finds the rows of the table that match words, best first.
 *   words: "" matches all. capacity: how many rows fit. rows: set to the numbers of the best, for
 * feed_feedstock_at; may be NULL when capacity is 0. count: set to how many match, which may be
 * more than capacity. Errors: FEED_BAD_ARGUMENT. Threads: any. Since 0.1. */
FEED_API feed_code feed_table_search(const char* words, size_t capacity, size_t* rows,
                                     size_t* count, feed_error* error);

/* How fast a material decays; a judgement. */
enum {
    FEED_DECAY_INERT = 0,
    FEED_DECAY_FAST = 1,
    FEED_DECAY_MEDIUM = 2,
    FEED_DECAY_SLOW = 3,
    FEED_DECAY_VERY_SLOW = 4
};
/* "Not given" for enumerators and bit sets in structs that you fill. */
enum { FEED_NOT_GIVEN = -1 };

/* One property of a feedstock of your own, in its unit; low and high both NaN take the stated
 * default range. This struct never grows. */
typedef struct feed_own_value {
    int32_t property;
    double value;
    double low;
    double high;
} feed_own_value;
/* Start a value from this. */
#define FEED_OWN_VALUE_INIT \
    { FEED_NOT_GIVEN, NAN, NAN, NAN }

/* A feedstock of your own, or what differs from another. Zeros that would lift a bar, drop
 * cautions, take every role or stop decay are refused with FEED_OUT_OF_RANGE. */
typedef struct feed_own_feedstock {
    uint32_t struct_size;
    int32_t roles;       /* bits of FEED_ROLE_..., or FEED_NOT_GIVEN: scraps, or as in `like` */
    int32_t stance;      /* FEED_STANCE_..., or FEED_NOT_GIVEN */
    int32_t decay_class; /* FEED_DECAY_..., or FEED_NOT_GIVEN */
    int32_t cautions;    /* bits of FEED_CAUTION_..., or FEED_NOT_GIVEN */
    const char* name;    /* the words used in answers */
    const feed_own_value* values;
    size_t value_count;
} feed_own_feedstock;
/* Start an own feedstock from this; it needs a name. */
#define FEED_OWN_FEEDSTOCK_INIT                                                     \
    {                                                                               \
        sizeof(feed_own_feedstock), FEED_NOT_GIVEN, FEED_NOT_GIVEN, FEED_NOT_GIVEN, \
            FEED_NOT_GIVEN, NULL, NULL, 0                                           \
    }

/* Makes a feedstock of your own: all of it, or what differs from `like`.
 *   Of carbon, nitrogen and C:N the given ones stand and the others follow. own: struct_size
 * set by you. like: or NULL. out: set to a new handle, yours to free. Errors:
 * FEED_UNKNOWN_PROPERTY, FEED_NOT_A_NUMBER, FEED_OUT_OF_RANGE, FEED_PERCENT_SLIP,
 * FEED_LOW_ABOVE_HIGH, FEED_DUPLICATE_ENTRY, FEED_CONTRADICTION (C:N against carbon and
 * nitrogen; parts above the whole), FEED_MISSING_VALUE (no moisture), FEED_EMPTY,
 * FEED_BAD_ARGUMENT, FEED_OUT_OF_MEMORY. Threads: read. Since 0.1. */
FEED_API feed_code feed_feedstock_define(const feed_own_feedstock* own, const feed_feedstock* like,
                                         const feed_allocator* allocator, feed_feedstock** out,
                                         feed_error* error);

/* A nutrition label, each number kg per kg as it is (grams per 100 g over 100); NaN where the label
 * says nothing. */
typedef struct feed_nutrition_label {
    uint32_t struct_size;
    int32_t carbohydrate_has_fibre; /* 1: fibre is part of carbohydrate (United States); 0: it is
                                       not (Europe) */
    double protein;                 /* these three are needed */
    double fat;
    double carbohydrate;
    double sugars;
    double fibre;
    double water; /* by difference where not given */
    double ash;
    double salt;           /* as NaCl */
    double sodium;         /* goes before salt */
    double protein_factor; /* nitrogen = protein / factor; NaN: 6.25 */
} feed_nutrition_label;
/* Start a label from this. */
#define FEED_NUTRITION_LABEL_INIT \
    { sizeof(feed_nutrition_label), 0, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN }

/* Makes a feedstock from a nutrition label.
 *   own: gives the name; its values go before those of the label. label: struct_size set by
 * you. out: set to a new handle, yours to free. Errors: those of feed_feedstock_define.
 * Formulas F0, F1, F4, F5: docs/methods.md. Threads: any. Since 0.1. */
FEED_API feed_code feed_feedstock_from_label(const feed_own_feedstock* own,
                                             const feed_nutrition_label* label,
                                             const feed_allocator* allocator, feed_feedstock** out,
                                             feed_error* error);

/* A laboratory report; fractions kg per kg of the mass that `as_received` names, NaN where it says
 * nothing. */
typedef struct feed_laboratory_report {
    uint32_t struct_size;
    int32_t as_received; /* 0: of the dry mass; 1: of the mass as it came */
    double moisture_wet; /* needed */
    double carbon;
    double nitrogen;
    double cn_ratio;
    double ash;
    double volatile_solids;
} feed_laboratory_report;
/* Start a report from this. */
#define FEED_LABORATORY_REPORT_INIT \
    { sizeof(feed_laboratory_report), 0, NAN, NAN, NAN, NAN, NAN, NAN }

/* Makes a feedstock from a laboratory report.
 *   own: gives the name; its values go before those of the report. report: struct_size set by
 * you. out: set to a new handle, yours to free. Errors: those of feed_feedstock_define.
 * Threads: any. Since 0.1. */
FEED_API feed_code feed_feedstock_from_report(const feed_own_feedstock* own,
                                              const feed_laboratory_report* report,
                                              const feed_allocator* allocator, feed_feedstock** out,
                                              feed_error* error);

/* Makes a feedstock from YAML text: one member of the `feedstocks` of a feed file, "till roll:
 * {like: newspaper}".
 *   text: UTF-8. out: set to a new handle, yours to free. Errors: FEED_SYNTAX,
 * FEED_UNKNOWN_KEY, FEED_WRONG_TYPE, FEED_TOO_LARGE, FEED_NOT_UTF8 and those of
 * feed_feedstock_define, with line and column. Threads: any. Form: docs/files.md. Since 0.1. */
FEED_API feed_code feed_feedstock_from_text(const char* text, const feed_allocator* allocator,
                                            feed_feedstock** out, feed_error* error);

/* What was done to a material before it is fed. */
enum {
    FEED_PREPARATION_WHOLE = 0,
    FEED_PREPARATION_CHOPPED = 1,
    FEED_PREPARATION_BLENDED = 2,
    FEED_PREPARATION_FROZEN_THAWED = 3,
    FEED_PREPARATION_DRAINED = 4,
    FEED_PREPARATION_SOAKED = 5,
    FEED_PREPARATION_DRIED = 6,
    FEED_PREPARATION_PRE_COMPOSTED = 7,
    FEED_PREPARATION_DAMPED = 8
};

/* Makes the feedstock after a preparation: moisture, density and decay rate changed by stated
 * factors (grade D).
 *   preparation: FEED_PREPARATION_... out: set to a new handle, yours to free. Errors:
 * FEED_BAD_ARGUMENT, FEED_OUT_OF_RANGE, FEED_OUT_OF_MEMORY. Threads: read. Since 0.1. */
FEED_API feed_code feed_feedstock_prepare(const feed_feedstock* feedstock, int32_t preparation,
                                          const feed_allocator* allocator, feed_feedstock** out,
                                          feed_error* error);

/* Gives names, group, roles, stance and cautions.
 *   out: struct_size set by you; its texts live as long as the handle. Errors: FEED_BAD_ARGUMENT.
 * Threads: read. Since 0.1. */
FEED_API feed_code feed_feedstock_describe(const feed_feedstock* feedstock,
                                           feed_feedstock_info* out, feed_error* error);

/* Gives one property with range, grade and source.
 *   property: FEED_MOISTURE_WET or another of that list. out: struct_size set by you; known is 0
 * where nothing is known. Errors: FEED_UNKNOWN_PROPERTY, FEED_BAD_ARGUMENT. Threads: read. Since
 * 0.1. */
FEED_API feed_code feed_feedstock_get(const feed_feedstock* feedstock, int32_t property,
                                      feed_value* out, feed_error* error);
/* Frees a feedstock; NULL is allowed. Threads: the only user of the handle. Since 0.1. */
FEED_API void feed_feedstock_free(feed_feedstock* feedstock);

/* ------------------------------------------------------------------------------------------------
 * amounts */

/* Turns an amount as people write it into wet mass of a feedstock: "1.2 kg", "3 L", "6 piece", "1
 * 1/2 cup". amount: UTF-8, decimal point. feedstock: gives density and piece weights. wet_kg: set
 * to kilograms wet. how: set to one sentence that says how volume or pieces became mass, "" where
 * nothing had to be assumed; may be NULL when how_size is 0. how_size: bytes that fit, NUL
 * included; a longer sentence is cut. Errors: FEED_UNIT_MISSING, FEED_UNIT_UNKNOWN,
 * FEED_OUT_OF_RANGE, FEED_MISSING_VALUE (no such measure or density known), FEED_SYNTAX,
 * FEED_BAD_ARGUMENT. Threads: read. Since 0.1. */
FEED_API feed_code feed_amount_to_wet_kg(const char* amount, const feed_feedstock* feedstock,
                                         double* wet_kg, char* how, size_t how_size,
                                         feed_error* error);

/* ------------------------------------------------------------------------------------------------
 * blend */

/* An amount of a feedstock. This struct never grows. */
typedef struct feed_portion {
    const feed_feedstock* feedstock;
    double wet_kg; /* 1e-9 to 1e9 */
} feed_portion;
/* Start a portion from this. */
#define FEED_PORTION_INIT \
    { NULL, NAN }

typedef struct feed_blend_properties {
    uint32_t struct_size;
    int32_t cautions; /* union of the bits of FEED_CAUTION_... */
    double wet_kg;
    feed_estimate dry_kg;
    feed_estimate water_kg;
    feed_estimate moisture_wet;       /* kg per kg */
    feed_estimate cn_ratio;           /* total carbon over total nitrogen by mass */
    feed_estimate available_cn_ratio; /* carbon that microbes reach, limited by lignin (Chandler
                                         1980), over nitrogen */
    feed_estimate carbon_kg;
    feed_estimate nitrogen_kg;
    feed_estimate volume_l;
    feed_estimate bulk_density_kg_m3;
    feed_estimate free_air_space; /* share of the volume */
    feed_estimate acid_g_citric;
    feed_estimate salt_g; /* sodium as NaCl */
    feed_estimate potassium_g;
    feed_estimate fat_kg;
    feed_estimate volatile_solids_kg;
    feed_estimate neutralising_g_caco3;
} feed_blend_properties;

/* Computes the properties of portions together, with intervals and grades.
 *   portions: count of them, at least 1. out: struct_size set by you.
 * Errors: FEED_BAD_ARGUMENT, FEED_EMPTY, FEED_NOT_A_NUMBER, FEED_OUT_OF_RANGE, FEED_OUT_OF_MEMORY.
 * Threads: read. Formulas: docs/methods.md. Since 0.1. */
FEED_API feed_code feed_blend(const feed_portion* portions, size_t count,
                              feed_blend_properties* out, feed_error* error);

/* ------------------------------------------------------------------------------------------------
 * balance */

/* What a target limits; unit of its numbers beside each. */
enum {
    FEED_TARGET_CN_RATIO = 0,                 /* kg carbon per kg nitrogen */
    FEED_TARGET_MOISTURE = 1,                 /* kg per kg wet */
    FEED_TARGET_ACID_G_CITRIC_PER_WET_KG = 2, /* g per kg wet */
    FEED_TARGET_SALT_WET_FRACTION = 3,        /* kg NaCl per kg wet */
    FEED_TARGET_FAT_WET_FRACTION = 4,         /* kg per kg wet */
    FEED_TARGET_FREE_AIR_SPACE = 5,           /* share of the volume */
    FEED_TARGET_TOTAL_WET_KG = 6,             /* kg wet */
    FEED_TARGET_TOTAL_VOLUME_L = 7,           /* L */
    FEED_TARGET_BEDDING_L_PER_SCRAPS_L = 8,   /* L loose bedding per L scraps */
    FEED_TARGET_WATER_OVER_LEAST = 9, /* kg water poured over the least with which all other targets
                                         can be met; only an upper limit */
    FEED_TARGET_WATER_OVER_ROOM = 10  /* kg water poured over what bedding and dry scraps take up,
                                         less what scraps set free; only an upper limit */
};
/* What best means. */
enum {
    FEED_OBJECTIVE_CLOSEST_TO_AIMS = 0,
    FEED_OBJECTIVE_CLOSEST_TO_USUAL = 1,
    FEED_OBJECTIVE_LEAST_ADDED = 2,
    FEED_OBJECTIVE_CHEAPEST = 3,
    FEED_OBJECTIVE_USE_UP_MOST = 4
};
/* Ready sets of targets, never mixed. A problem for which none is said has that of a worm bed,
 * and targets that are set one by one go in place of its own. */
enum { FEED_TARGETS_WORM_BED = 0, FEED_TARGETS_HOT_HEAP = 1, FEED_TARGETS_NONE = 2 };
/* What came of a balance; not an error of the call. */
enum { FEED_SOLVED = 0, FEED_INFEASIBLE = 1, FEED_UNBOUNDED = 2, FEED_BALANCE_FAILED = 3 };

/* What is at hand and what is asked for. Free with feed_problem_free. */
typedef struct feed_problem feed_problem;
/* The answer; immutable. Free with feed_answer_free. */
typedef struct feed_answer feed_answer;

typedef struct feed_entry {
    uint32_t struct_size;
    int32_t use_up_priority; /* 0 none, 1 first, 2 second ... */
    const feed_feedstock* feedstock;
    const char* label;      /* your words for it, or NULL for the feedstock's name */
    double least_wet_kg;    /* 0, or 1e-9 to 1e9, as the others below */
    double most_wet_kg;     /* at least least_wet_kg; NaN: no upper limit */
    double cost_per_wet_kg; /* NaN: none */
    double usual_wet_kg;    /* amount in the usual recipe; NaN: none */
} feed_entry;
/* Start an entry from this; it needs a feedstock. As it is, any amount of it may be taken. */
#define FEED_ENTRY_INIT \
    { sizeof(feed_entry), 0, NULL, NULL, 0.0, NAN, NAN, NAN }

typedef struct feed_target {
    uint32_t struct_size;
    int32_t property;  /* FEED_TARGET_... */
    double low;        /* NaN: no limit on this side */
    double high;       /* above 0 for C:N, moisture, air space, totals and bedding, as is the aim */
    double aim;        /* NaN: none */
    const char* label; /* your words, for conflicts; or NULL */
    const char* source; /* where the numbers come from; or NULL */
} feed_target;
/* Start a target from this; it needs a property and a number. */
#define FEED_TARGET_INIT \
    { sizeof(feed_target), FEED_NOT_GIVEN, NAN, NAN, NAN, NULL, NULL }

/* Makes an empty problem, with the targets of a worm bed until another set is said.
 *   out: set to a new handle, yours to free. Errors: FEED_BAD_ARGUMENT, FEED_OUT_OF_MEMORY.
 * Threads: any. Since 0.1. */
FEED_API feed_code feed_problem_create(const feed_allocator* allocator, feed_problem** out,
                                       feed_error* error);

/* Adds something at hand.
 *   Equal least and most give an exact amount; least 0 with most NaN is free. entry:
 * struct_size set by you. Errors: FEED_BAD_ARGUMENT, FEED_NOT_A_NUMBER, FEED_OUT_OF_RANGE,
 * FEED_LOW_ABOVE_HIGH, FEED_OUT_OF_MEMORY. Threads: changes the handle. Since 0.1. */
FEED_API feed_code feed_problem_add_entry(feed_problem* problem, const feed_entry* entry,
                                          feed_error* error);

/* Adds a target, in place of an earlier one on the same property.
 *   target: struct_size set by you. Errors: as above. Threads: changes the handle. Since 0.1. */
FEED_API feed_code feed_problem_set_target(feed_problem* problem, const feed_target* target,
                                           feed_error* error);

/* Puts in a ready set of targets (FEED_TARGETS_...), in place of earlier targets on the same
 * properties; FEED_TARGETS_NONE puts in none.
 *   target_set: FEED_TARGETS_... Errors: FEED_BAD_ARGUMENT, FEED_OUT_OF_RANGE. Threads:
 * changes the handle. Since 0.1. */
FEED_API feed_code feed_problem_use_target_set(feed_problem* problem, int32_t target_set,
                                               feed_error* error);

/* Says what best means (FEED_OBJECTIVE_...); closest to the aims until said.
 *   objective: FEED_OBJECTIVE_... Errors: FEED_BAD_ARGUMENT, FEED_OUT_OF_RANGE. Threads:
 * changes the handle. Since 0.1. */
FEED_API feed_code feed_problem_set_objective(feed_problem* problem, int32_t objective,
                                              feed_error* error);
/* Frees a problem; NULL is allowed. Threads: the only user of the handle. Since 0.1. */
FEED_API void feed_problem_free(feed_problem* problem);

/* Balances.
 *   "Targets cannot be met" is an answer, not an error: read its status. out: set to a new
 * handle, yours to free. Errors: FEED_NO_AMOUNT_FIXED, FEED_EMPTY, FEED_MISSING_VALUE (an
 * entry lacks a property that a target needs), FEED_BAD_ARGUMENT, FEED_OUT_OF_MEMORY. Threads:
 * read. Method: docs/balance.md, docs/solver.md. Since 0.1. */
FEED_API feed_code feed_balance(const feed_problem* problem, const feed_allocator* allocator,
                                feed_answer** out, feed_error* error);

typedef struct feed_answer_summary {
    uint32_t struct_size;
    int32_t status;       /* FEED_SOLVED ... */
    int32_t grade;        /* the worst grade the answer leans on */
    int32_t has_mend;     /* 1: mend_label and mend_add_wet_kg hold */
    size_t portion_count; /* same order as the entries */
    size_t reached_count;
    size_t conflict_count; /* members of the minimal conflicting set when infeasible */
    size_t assumption_count;
    double mend_add_wet_kg;      /* smallest single addition that mends it, or NaN */
    const char* mend_label;      /* texts live as long as the answer; "" where there is none */
    const char* unbounded_label; /* what nothing limits, or "" */
} feed_answer_summary;

typedef struct feed_reached {
    uint32_t struct_size;
    int32_t property; /* FEED_TARGET_... */
    int32_t inside;
    int32_t binding;
    double low; /* the window; NaN where open */
    double high;
    double aim;
    feed_estimate quantity;
    const char* label;
} feed_reached;

/* Gives status and counts. out: struct_size set by you. Errors: FEED_BAD_ARGUMENT. Threads: read.
 * Since 0.1. */
FEED_API feed_code feed_answer_describe(const feed_answer* answer, feed_answer_summary* out,
                                        feed_error* error);

/* Gives one portion: wet kilograms of the entry with the same index; the closest blend when
 * infeasible.
 *   index: below portion_count. label: set to the entry's words, or NULL pointer when not
 * wanted. wet_kg: set to kilograms wet. Errors: FEED_BAD_ARGUMENT, FEED_OUT_OF_RANGE. Threads:
 * read. Since 0.1. */
FEED_API feed_code feed_answer_portion(const feed_answer* answer, size_t index, double* wet_kg,
                                       const char** label, feed_error* error);

/* Gives what one target came to. index: below reached_count. out: struct_size set by you.
 * Errors: FEED_BAD_ARGUMENT, FEED_OUT_OF_RANGE. Threads: read. Since 0.1. */
FEED_API feed_code feed_answer_reached(const feed_answer* answer, size_t index, feed_reached* out,
                                       feed_error* error);

/* Gives the words of one member of the conflicting set.
 *   index: below conflict_count. label: set to the words. Errors: FEED_BAD_ARGUMENT,
 * FEED_OUT_OF_RANGE. Threads: read. Since 0.1. */
FEED_API feed_code feed_answer_conflict(const feed_answer* answer, size_t index, const char** label,
                                        feed_error* error);

/* Gives one assumption the answer made, as a sentence.
 *   index: below assumption_count. sentence: set to it. Errors: FEED_BAD_ARGUMENT,
 * FEED_OUT_OF_RANGE. Threads: read. Since 0.1. */
FEED_API feed_code feed_answer_assumption(const feed_answer* answer, size_t index,
                                          const char** sentence, feed_error* error);

/* Gives the number of sentences on what helps when the targets cannot be met.
 *   count: set to that number; 0 where they are met. Errors: FEED_BAD_ARGUMENT. Threads: read.
 * Since 0.1. */
FEED_API feed_code feed_answer_advice_count(const feed_answer* answer, size_t* count,
                                            feed_error* error);

/* Gives one sentence on what helps when the targets cannot be met, the best first.
 *   index: below the count. sentence: set to it. Errors: FEED_BAD_ARGUMENT,
 * FEED_OUT_OF_RANGE. Threads: read. Since 0.1. */
FEED_API feed_code feed_answer_advice(const feed_answer* answer, size_t index,
                                      const char** sentence, feed_error* error);

/* Gives the properties of the blend that the answer proposes. out: struct_size set by you.
 * Errors: FEED_BAD_ARGUMENT. Threads: read. Since 0.1. */
FEED_API feed_code feed_answer_blend(const feed_answer* answer, feed_blend_properties* out,
                                     feed_error* error);
/* Frees an answer; NULL is allowed. Threads: the only user of the handle. Since 0.1. */
FEED_API void feed_answer_free(feed_answer* answer);

/* ------------------------------------------------------------------------------------------------
 * bed */

/* What the worms live in. */
enum {
    FEED_CONTAINER_TRAY = 0,
    FEED_CONTAINER_TOTE = 1,
    FEED_CONTAINER_BUCKET = 2,
    FEED_CONTAINER_BATH = 3,
    FEED_CONTAINER_FLOW_THROUGH = 4,
    FEED_CONTAINER_WINDROW = 5,
    FEED_CONTAINER_BOX = 6
};
enum { FEED_DRAINAGE_OPEN = 0, FEED_DRAINAGE_TAP = 1, FEED_DRAINAGE_NONE = 2 };
enum { FEED_LID_NONE = 0, FEED_LID_LOOSE = 1, FEED_LID_TIGHT = 2 };
enum { FEED_VENTILATION_OPEN_TOP = 0, FEED_VENTILATION_HOLES = 1, FEED_VENTILATION_CLOSED = 2 };
enum {
    FEED_SPECIES_EISENIA_FETIDA = 0, /* or E. andrei */
    FEED_SPECIES_EISENIA_HORTENSIS = 1,
    FEED_SPECIES_PERIONYX_EXCAVATUS = 2,
    FEED_SPECIES_EUDRILUS_EUGENIAE = 3
};
enum { FEED_WORMS_WEIGHED = 0, FEED_WORMS_COUNTED = 1, FEED_WORMS_AS_BOUGHT = 2 };
/* What a handful does in the fist, driest first. */
enum {
    FEED_SQUEEZE_CRUMBLY = 0,
    FEED_SQUEEZE_DAMP = 1,
    FEED_SQUEEZE_DROPS = 2,
    FEED_SQUEEZE_MANY_DROPS = 3,
    FEED_SQUEEZE_STREAMS = 4,
    FEED_SQUEEZE_POOLING = 5
};

/* A bed as its keeper describes it. Start from FEED_BED_DESCRIPTION_INIT, or from
 * feed_bed_description_init: every enumerator is then FEED_NOT_GIVEN and every number NaN, and what
 * you leave so is assumed and said. */
typedef struct feed_bed_description {
    uint32_t struct_size;
    int32_t container; /* FEED_CONTAINER_... */
    int32_t stacked;   /* working trays on top of each other, at least 1 */
    int32_t drainage;
    int32_t lid;
    int32_t ventilation;
    int32_t species;
    int32_t worms_known;
    int32_t squeeze;
    double inside_length_m; /* all three or none */
    double inside_width_m;
    double inside_depth_m;
    double nominal_volume_l;
    double depth_of_contents_m;
    double worms_wet_kg;
    double worms_count;
    double temperature_low_c; /* low alone: one value; low and high: a range */
    double temperature_high_c;
    double moisture_wet;                       /* measured by drying; wins over the squeeze test */
    double ph;                                 /* only if measured */
    double lime_g_caco3;                       /* lime or ground shell already in the bed */
    double age_days;                           /* since the worms moved in */
    double own_feeding_rate_wet_kg_per_kg_day; /* wet scraps per kg of worms and day this bed was
                                                  seen to clear */
} feed_bed_description;
/* Start a description from this. */
#define FEED_BED_DESCRIPTION_INIT                                                                \
    {                                                                                            \
        sizeof(feed_bed_description), FEED_NOT_GIVEN, FEED_NOT_GIVEN, FEED_NOT_GIVEN,            \
            FEED_NOT_GIVEN, FEED_NOT_GIVEN, FEED_NOT_GIVEN, FEED_NOT_GIVEN, FEED_NOT_GIVEN, NAN, \
            NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN                      \
    }

/* A bed. Free with feed_bed_free. */
typedef struct feed_bed feed_bed;

/* Sets every field to "not given". description: struct_size set by you. Errors: FEED_BAD_ARGUMENT.
 * Threads: any. Since 0.1. */
FEED_API feed_code feed_bed_description_init(feed_bed_description* description, feed_error* error);

/* Makes a bed.
 *   description: struct_size set by you. out: set to a new handle, yours to free. Errors:
 * FEED_BAD_ARGUMENT, FEED_NOT_A_NUMBER, FEED_OUT_OF_RANGE, FEED_PERCENT_SLIP,
 * FEED_LOW_ABOVE_HIGH, FEED_OUT_OF_MEMORY. Threads: any. Since 0.1. */
FEED_API feed_code feed_bed_create(const feed_bed_description* description,
                                   const feed_allocator* allocator, feed_bed** out,
                                   feed_error* error);

/* Gives the bed one temperature a day, the first for day 0, in place of the value or range.
 *   temperature_c: count numbers, count at least 1. Errors: FEED_BAD_ARGUMENT, FEED_NOT_A_NUMBER,
 * FEED_OUT_OF_RANGE. Threads: changes the handle. Since 0.1. */
FEED_API feed_code feed_bed_set_daily_temperature(feed_bed* bed, const double* temperature_c,
                                                  size_t count, feed_error* error);

/* Says what the bed is made of, water included.
 *   portions: count of them, at least 1. Errors: as feed_blend. Threads: changes the handle.
 * Since 0.1. */
FEED_API feed_code feed_bed_set_bedding(feed_bed* bed, const feed_portion* portions, size_t count,
                                        feed_error* error);

/* Adds a feeding: before day 0 it is part of the bed's past, from day 0 on it is planned (used
 * by the forecast).
 *   day: days, finite. portions: count of them, at least 1. Errors: as feed_blend. Threads:
 * changes the handle. Since 0.1. */
FEED_API feed_code feed_bed_add_feeding(feed_bed* bed, double day, const feed_portion* portions,
                                        size_t count, feed_error* error);
/* Frees a bed; NULL is allowed. Threads: the only user of the handle. Since 0.1. */
FEED_API void feed_bed_free(feed_bed* bed);

/* ------------------------------------------------------------------------------------------------
 * check */

/* Hazards; a check answers all of them in this order. */
enum {
    FEED_HAZARD_SOUR = 0,
    FEED_HAZARD_WET = 1,
    FEED_HAZARD_DRY = 2,
    FEED_HAZARD_HOT = 3,
    FEED_HAZARD_AMMONIA = 4,
    FEED_HAZARD_SALTY = 5,
    FEED_HAZARD_OVERFED = 6,
    FEED_HAZARD_UNDERFED = 7,
    FEED_HAZARD_AIRLESS = 8,
    FEED_HAZARD_GREASY = 9,
    FEED_HAZARD_COLD = 10
};
enum { FEED_LEVEL_NONE = 0, FEED_LEVEL_WATCH = 1, FEED_LEVEL_ACT = 2, FEED_LEVEL_UNKNOWN = 3 };

/* The judgement of a feeding against a bed; immutable. Free with feed_check_result_free. */
typedef struct feed_check_result feed_check_result;

typedef struct feed_hazard_finding {
    uint32_t struct_size;
    int32_t hazard;          /* FEED_HAZARD_... */
    int32_t level;           /* FEED_LEVEL_... */
    int32_t higher_is_worse; /* 0: the limits are lower ends */
    feed_estimate value;     /* in `unit` */
    double limit_watch;
    double limit_act;
    const char* unit;   /* texts live as long as the result */
    const char* source; /* of the limits */
    const char* why;    /* one sentence with the numbers */
} feed_hazard_finding;

/* Judges a feeding against a bed, and finds the ration: what to do, with the feeding as what is at
 * hand. bed: its planned feedings are left aside. portions: the feeding, count of them; may be NULL
 * when count is 0: the bed is then judged alone, and the ration is for soft mixed scraps. out: set
 * to a new handle, yours to free. Errors: as feed_blend, but no FEED_EMPTY. Threads: read. Limits
 * and formulas: docs/bed.md. Since 0.1. */
FEED_API feed_code feed_check(const feed_bed* bed, const feed_portion* portions, size_t count,
                              const feed_allocator* allocator, feed_check_result** out,
                              feed_error* error);

/* Gives one hazard. hazard: FEED_HAZARD_... out: struct_size set by you. Errors: FEED_BAD_ARGUMENT,
 * FEED_OUT_OF_RANGE. Threads: read. Since 0.1. */
FEED_API feed_code feed_check_hazard(const feed_check_result* result, int32_t hazard,
                                     feed_hazard_finding* out, feed_error* error);

/* What to do, most urgent first. */
enum {
    FEED_RATION_ACT_FIRST = 0, /* one step today, and no food */
    FEED_RATION_WAIT = 1,
    FEED_RATION_FEED_LESS = 2,
    FEED_RATION_FEED = 3
};

/* What to put in today, and when again. Masses are as printed, and were judged as printed. */
typedef struct feed_ration {
    uint32_t struct_size;
    int32_t answer;                /* FEED_RATION_... */
    int32_t grade;                 /* FEED_GRADE_... */
    uint32_t raised;               /* bits 1 << FEED_HAZARD_... : raised by the bed without food */
    int32_t next_look_day;         /* days from today; 0: first look */
    int32_t next_feeding_day;      /* days from today; -1: the bed must be seen first */
    int32_t next_feeding_earliest; /* days from today, or -1 */
    int32_t next_feeding_latest;   /* days from today, or -1 */
    size_t take_out_count;
    size_t put_in_count;
    size_t rest_count;
    size_t reason_count;
    size_t weigh_count;
    size_t line_count;
    double scraps_wet_kg; /* these three are part of what is put in */
    double water_kg;
    double lime_wet_kg;
    double week_wet_kg; /* scraps that these worms may have in a week */
    double spread_m2;   /* over which the food is laid */
    double share_left;  /* 0 to 1 of today's food on the day of the next look */
} feed_ration;

/* Gives the ration. Whatever take_out_count says comes before its answer.
 *   out: struct_size set by you. Errors: FEED_BAD_ARGUMENT. Threads: read. Method: docs/bed.md.
 * Since 0.1. */
FEED_API feed_code feed_check_ration(const feed_check_result* result, feed_ration* out,
                                     feed_error* error);

/* What is never fed here. */
typedef struct feed_take_out {
    uint32_t struct_size;
    const char* feedstock_id; /* texts live as long as the result */
    const char* label;
    const char* why;     /* a few words */
    const char* instead; /* where with it */
} feed_take_out;

/* Gives one thing that must be taken out of what is at hand.
 *   index: below take_out_count. out: struct_size set by you. Errors: FEED_BAD_ARGUMENT,
 * FEED_OUT_OF_RANGE. Threads: read. Since 0.1. */
FEED_API feed_code feed_check_take_out(const feed_check_result* result, size_t index,
                                       feed_take_out* out, feed_error* error);

/* What a feedstock is to a feeding. */
enum {
    FEED_PART_SCRAPS = 0,
    FEED_PART_BEDDING = 1,
    FEED_PART_AMENDMENT = 2,
    FEED_PART_POURED_WATER = 3
};

/* One thing that goes in, or stays out. */
typedef struct feed_ration_thing {
    uint32_t struct_size;
    int32_t part;    /* FEED_PART_... */
    int32_t at_hand; /* 0: offered, because nothing of its kind is at hand */
    int32_t capped;  /* 1: stays out because it is too much of it at a time */
    double wet_kg;
    const char* feedstock_id; /* texts live as long as the result */
    const char* label;
    const char* measure; /* "2 handfuls, about 170 g" */
} feed_ration_thing;

/* Gives one thing that goes in: scraps, then bedding, water and lime.
 *   index: below put_in_count. out: struct_size set by you. Errors: FEED_BAD_ARGUMENT,
 * FEED_OUT_OF_RANGE. Threads: read. Since 0.1. */
FEED_API feed_code feed_check_put_in(const feed_check_result* result, size_t index,
                                     feed_ration_thing* out, feed_error* error);

/* Gives one thing at hand that does not go in today, and how much of it.
 *   index: below rest_count. out: struct_size set by you. Errors: FEED_BAD_ARGUMENT,
 * FEED_OUT_OF_RANGE. Threads: read. Since 0.1. */
FEED_API feed_code feed_check_rest(const feed_check_result* result, size_t index,
                                   feed_ration_thing* out, feed_error* error);

/* Gives one reason for the ration, as a sentence.
 *   index: below reason_count, at most 2. sentence: set to it. Errors: FEED_BAD_ARGUMENT,
 * FEED_OUT_OF_RANGE. Threads: read. Since 0.1. */
FEED_API feed_code feed_check_reason(const feed_check_result* result, size_t index,
                                     const char** sentence, feed_error* error);

/* Gives one thing that is worth weighing or measuring, in a few words, what moves the ration most
 * first. index: below weigh_count, at most 2. words: set to them. Errors: FEED_BAD_ARGUMENT,
 * FEED_OUT_OF_RANGE. Threads: read. Since 0.1. */
FEED_API feed_code feed_check_weigh(const feed_check_result* result, size_t index,
                                    const char** words, feed_error* error);

/* Gives one line of the first screen: the whole ration in plain words, metric, in order.
 *   index: below line_count. line: set to it. Errors: FEED_BAD_ARGUMENT, FEED_OUT_OF_RANGE.
 * Threads: read. Since 0.1. */
FEED_API feed_code feed_check_line(const feed_check_result* result, size_t index, const char** line,
                                   feed_error* error);

/* Gives the number of assumptions the judgement made.
 *   count: set to that number. Errors: FEED_BAD_ARGUMENT. Threads: read. Since 0.1. */
FEED_API feed_code feed_check_assumption_count(const feed_check_result* result, size_t* count,
                                               feed_error* error);

/* Gives one assumption the judgement made, as a sentence.
 *   index: below the count. sentence: set to it. Errors: FEED_BAD_ARGUMENT,
 * FEED_OUT_OF_RANGE. Threads: read. Since 0.1. */
FEED_API feed_code feed_check_assumption(const feed_check_result* result, size_t index,
                                         const char** sentence, feed_error* error);

/* Gives the number of cautions of the feedstocks.
 *   count: set to that number. Errors: FEED_BAD_ARGUMENT. Threads: read. Since 0.1. */
FEED_API feed_code feed_check_caution_count(const feed_check_result* result, size_t* count,
                                            feed_error* error);

/* Gives one caution as a sentence and where it comes from.
 *   index: below the count. source: may be NULL. sentence: set to it. Errors:
 * FEED_BAD_ARGUMENT, FEED_OUT_OF_RANGE. Threads: read. Since 0.1. */
FEED_API feed_code feed_check_caution(const feed_check_result* result, size_t index,
                                      const char** sentence, const char** source,
                                      feed_error* error);

/* Frees a judgement; NULL is allowed. Threads: the only user of the handle. Since 0.1. */
FEED_API void feed_check_result_free(feed_check_result* result);

/* ------------------------------------------------------------------------------------------------
 * forecast */

/* Series of a forecast; unit beside each. */
enum {
    FEED_SERIES_MOISTURE_WET = 0,     /* kg water per kg wet */
    FEED_SERIES_FREE_WATER_KG = 1,    /* above what the bed can hold */
    FEED_SERIES_FOOD_LEFT_WET_KG = 2, /* scraps left, as the wet mass fed that they stand for */
    FEED_SERIES_ACID_G_CITRIC = 3,
    FEED_SERIES_FREE_AMMONIA_G_N_PER_WET_KG = 4,
    FEED_SERIES_TEMPERATURE_C = 5,
    FEED_SERIES_TEMPERATURE_RISE_C = 6, /* above the bed without food */
    FEED_SERIES_VOLUME_L = 7,
    FEED_SERIES_DEPTH_M = 8,
    FEED_SERIES_CN_RATIO = 9,             /* kg carbon per kg nitrogen */
    FEED_SERIES_CASTINGS_DRY_KG = 10,     /* formed since day 0 */
    FEED_SERIES_POCKET_TEMPERATURE_C = 11 /* of the food fed from day 0 on */
};

/* A bed day by day; immutable. Free with feed_forecast_free. */
typedef struct feed_forecast feed_forecast;

typedef struct feed_forecast_summary {
    uint32_t struct_size;
    int32_t grade;
    size_t day_count;           /* entries in each series: days + 1, the first for day 0 */
    double harvest_day;         /* NaN: not within the forecast */
    double new_bedding_day;     /* NaN: not within the forecast */
    const char* harvest_reason; /* texts live as long as the forecast */
    const char* new_bedding_reason;
} feed_forecast_summary;

/* Computes the bed day by day with the feedings added to it. When to feed again is said by the
 * ration alone (feed_check_ration).
 *   days: 1 to 366. out: set to a new handle, yours to free. Errors: FEED_OUT_OF_RANGE,
 * FEED_BAD_ARGUMENT, FEED_OUT_OF_MEMORY. Threads: read. Equations: docs/forecast.md. Since
 * 0.1. */
FEED_API feed_code feed_forecast_bed(const feed_bed* bed, size_t days,
                                     const feed_allocator* allocator, feed_forecast** out,
                                     feed_error* error);

/* Gives days and reasons. out: struct_size set by you. Errors: FEED_BAD_ARGUMENT. Threads: read.
 * Since 0.1. */
FEED_API feed_code feed_forecast_describe(const feed_forecast* forecast, feed_forecast_summary* out,
                                          feed_error* error);

/* Gives one series with its envelope.
 *   series: FEED_SERIES_... value, low, high: set to day_count numbers each, which live as long as
 * the forecast; low and high may be NULL. Errors: FEED_BAD_ARGUMENT, FEED_OUT_OF_RANGE. Threads:
 * read. Since 0.1. */
FEED_API feed_code feed_forecast_series(const feed_forecast* forecast, int32_t series,
                                        const double** value, const double** low,
                                        const double** high, feed_error* error);
/* Frees a forecast; NULL is allowed. Threads: the only user of the handle. Since 0.1. */
FEED_API void feed_forecast_free(feed_forecast* forecast);

/* ------------------------------------------------------------------------------------------------
 * diary */

/* A bin's diary: bed, feedings and observations. Free with feed_diary_free. */
typedef struct feed_diary feed_diary;

/* What the observations of a diary say of this bin's own rates of decay, at 25 C in a moist airy
 * bed. In each array: the labile, the cellulosic and the lignin-like pool; low and high hold 90 %.
 */
typedef struct feed_calibration {
    uint32_t struct_size;
    int32_t used_count;   /* looks at leftovers that bear on the rates */
    int32_t misfit_count; /* looks that do not fit: far off, or contradicting one another */
    int32_t unused_count; /* looks that no feeding explains */
    double before_per_day[3];
    double before_low_per_day[3];
    double before_high_per_day[3];
    double after_per_day[3];
    double after_low_per_day[3];
    double after_high_per_day[3];
} feed_calibration;

/* Reads a diary from YAML or JSON text.
 *   text: UTF-8. name: what errors call it. out: set to a new handle, yours to free. Errors:
 * those of reading (FEED_SYNTAX ...), with line and column; the first of problem_count.
 * Threads: any. Form: docs/files.md, docs/diary.md. Since 0.1. */
FEED_API feed_code feed_diary_from_text(const char* text, const char* name,
                                        const feed_allocator* allocator, feed_diary** out,
                                        feed_error* error);

/* Makes the bed that the diary describes, with its feedings.
 *   out: set to a new handle, yours to free. Errors: FEED_MISSING_VALUE (the diary describes
 * no bed), FEED_BAD_ARGUMENT, FEED_OUT_OF_MEMORY. Threads: read. Since 0.1. */
FEED_API feed_code feed_diary_bed(const feed_diary* diary, const feed_allocator* allocator,
                                  feed_bed** out, feed_error* error);

/* Judges what the diary plans for today, and finds the ration: what `feed check` and `feed ration`
 * say, with its alarms, its looks and this bin's own rates.
 *   out: set to a new handle, yours to free with feed_check_result_free. Errors:
 * FEED_MISSING_VALUE (no bed), FEED_BAD_ARGUMENT, FEED_OUT_OF_MEMORY. Threads: read. Since 0.1. */
FEED_API feed_code feed_diary_check(const feed_diary* diary, const feed_allocator* allocator,
                                    feed_check_result** out, feed_error* error);

/* Learns from the observations. out: struct_size set by you. Errors: FEED_MISSING_VALUE (no bed),
 * FEED_BAD_ARGUMENT, FEED_OUT_OF_MEMORY. Threads: read. Method: docs/diary.md. Since 0.1. */
FEED_API feed_code feed_diary_calibrate(const feed_diary* diary, feed_calibration* out,
                                        feed_error* error);
/* Frees a diary; NULL is allowed. Threads: the only user of the handle. Since 0.1. */
FEED_API void feed_diary_free(feed_diary* diary);

/* ------------------------------------------------------------------------------------------------
 * JSON */

/* Answers a request: one door to everything that needs no file, clock or locale.
 *   request: JSON in UTF-8, such as {"verb": "ration", "file": {...}, "date": "2026-03-14"}. out:
 * set to a new handle, yours to free: what `feed VERB --json` prints, or on a problem {"errors":
 * [...]} with all of them, while the code and `error` hold the first. Errors: those of the request
 * (FEED_SYNTAX, FEED_UNKNOWN_KEY, FEED_WRONG_TYPE, FEED_MISSING_VALUE, FEED_OUT_OF_RANGE ...) and
 * of the verb. Threads: any. Verbs and members: docs/door.md. Since 0.1. */
FEED_API feed_code feed_call(const char* request, const feed_allocator* allocator, feed_text** out,
                             feed_error* error);

/* The older, narrower door: the answer of a verb to the text of a feed file, all options left out.
 * feed_call does more. verb: "blend", "balance", "ration", "check", "forecast", "observe",
 * "trial plan", "trial read", or "show" and "table" (text is then a feedstock's name). text: YAML
 * or JSON, UTF-8. name: what errors call it. out: set to a new handle, yours to free: the answer,
 * or on a problem with the input {"errors": [...]}, while the code and `error` hold the first of
 * them. Errors: FEED_OUT_OF_RANGE (no such verb), FEED_MISSING_VALUE (the file lacks the section),
 * those of reading. Threads: any. Form: docs/files.md. Since 0.1. */
FEED_API feed_code feed_json(const char* verb, const char* text, const char* name,
                             const feed_allocator* allocator, feed_text** out, feed_error* error);

#ifdef __cplusplus
}
#endif
#endif

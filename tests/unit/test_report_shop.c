/* The shop's packet: what is cut adds up, drawings stand beside the paper, and nothing is lost when memory runs out. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include <dirent.h>
#include <jansson.h>
#include <sys/stat.h>
#include <unistd.h>

#include "compiled.h"
#include "draw_bench.h"
#include "draw/svg.h"
#include "metal/metal.h"
#include "metal/nest.h"
#include "ration.h"
#include "report/csv.h"
#include "report/drawings.h"
#include "report/packet.h"
#include "report/report.h"

static const char job_text[] =
    "job \"Base\"\n"
    "unit fan { blower 460 cfm at 0.20 in.wg, 400 cfm at 0.35 in.wg; cooling 1 ton; supply 10 x 12; return 14 x 8 }\n"
    "run trunk from fan.supply { straight 12 ft; transition to 10 x 8 over 12 in; straight 4 ft }\n"
    "outlet desk from trunk at 8 ft left { airflow 200 cfm; damper; flex 6 ft; boot; register 12 x 8 }\n"
    "outlet couch from trunk at 15 ft top { airflow 200 cfm; flex 6 ft; boot; register 12 x 8 }\n"
    "run back from fan.return { straight 4 ft }\n"
    "inlet floor from back { boot; grille 24 x 12 }\n";

static char *taken(struct output *out) {
    size_t length;
    char *text = output_take_memory(out, &length);
    assert_non_null(text);
    return text;
}

static char *written(const struct job *job, const char *reader, const char *format) {
    struct output *out = output_open_memory();
    assert_true(report_write(job, reader, format, NULL, out));
    return taken(out);
}

/* ---- What is cut ------------------------------------------------------------------------------------------------- */

static void the_cut_list_has_every_blank_of_the_job(void **state) {
    (void)state;
    struct compiled compiled = compiled_text("%s", job_text);
    const struct metal *metal = compiled.job->metal;
    assert_non_null(metal);
    double area = 0;
    size_t rows = 0;
    for (size_t i = 0; i < metal->parts.count; i++)
        for (size_t b = 0; b < metal->parts.at[i]->blanks.count; b++, rows++) {
            const struct blank *blank = &metal->parts.at[i]->blanks.at[b];
            area += blank->cut_area * (double)(blank->quantity * metal->parts.at[i]->uses.count);
        }
    assert_true(rows >= 4);
    assert_true(fabs(area - metal->area) < 1e-9 * area);

    char *csv = written(compiled.job, "shop", "csv"), *line = csv;
    size_t lines = 0;
    double printed = 0;
    for (char *end = strstr(line, "\r\n"); end; line = end + 2, end = strstr(line, "\r\n"), lines++) {
        unsigned part, count, opposite;
        double width, length, one;
        if (lines > 0 && sscanf(line, "%u,%*[A-Z],%*[^,],%u,%u,%*u,%*[^,],%lf,%lf,%lf", &part, &count, &opposite,
                                &width, &length, &one) == 6)
            printed += one * count;
    }
    assert_int_equal(*line, 0);
    assert_int_equal(lines, rows + 1);
    assert_true(fabs(printed * FOOT * FOOT - area) < 1e-3 * area);
    free(csv);
    compiled_free(&compiled);
}

static void a_field_of_a_csv_may_hold_anything(void **state) {
    (void)state;
    struct csv csv = {.out = output_open_memory()};
    csv_text(&csv, "plain");
    csv_text(&csv, "a, b");
    csv_text(&csv, "12\" round");
    csv_text(&csv, "two\nlines");
    csv_text(&csv, NULL);
    csv_count(&csv, 7);
    csv_real(&csv, 1.25, 4);
    csv_end(&csv);
    csv_text(&csv, "");
    csv_end(&csv);
    char *text = taken(csv.out);
    assert_string_equal(text, "plain,\"a, b\",\"12\"\" round\",\"two\nlines\",,7,1.2500\r\n\r\n");
    free(text);
}

/* ---- The paper --------------------------------------------------------------------------------------------------- */

static void every_part_is_named_and_every_joint_follows_the_part_before_it(void **state) {
    (void)state;
    struct compiled compiled = compiled_text("%s", job_text);
    char *paper = written(compiled.job, "shop", "md");
    for (size_t i = 0; i < compiled.job->metal->parts.count; i++) {
        const struct part *part = compiled.job->metal->parts.at[i];
        char heading[200];
        snprintf(heading, sizeof heading, "### Part %zu: %s\n", part->number, part->title);
        assert_non_null(strstr(paper, heading));
    }
    const char *joints = strstr(paper, "## Joints in hanging order"),
               *rows[] = {"the collar of fan", "part 1 ", "part 2 "};
    assert_non_null(joints);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        joints = strstr(joints, rows[i]);
        assert_non_null(joints);
    }
    free(paper);
    compiled_free(&compiled);
}

static void a_job_with_nothing_to_make_says_so(void **state) {
    (void)state;
    struct compiled compiled = compiled_text("job \"Empty\"\n");
    char *paper = written(compiled.job, "shop", "md");
    assert_non_null(strstr(paper, "There is nothing to make in this job."));
    free(paper);
    assert_string_equal(report_parts(compiled.job), "");
    struct pattern_order order;
    const char *why = NULL;
    assert_false(report_find_pattern(compiled.job, "1", &order, &why));
    assert_string_equal(why, "there is nothing to make in this job");
    compiled_free(&compiled);
}

/* ---- Data -------------------------------------------------------------------------------------------------------- */

static double real_in(const json_t *object, const char *key) {
    const json_t *value = json_object_get(object, key);
    assert_true(json_is_number(value));
    return json_number_value(value);
}

static void assert_same_flats(const json_t *array, const struct flat *points, size_t count) {
    assert_int_equal(json_array_size(array), count);
    for (size_t i = 0; i < count; i++) {
        assert_true(json_number_value(json_array_get(json_array_get(array, i), 0)) == points[i].x);
        assert_true(json_number_value(json_array_get(json_array_get(array, i), 1)) == points[i].y);
    }
}

static void every_vertex_comes_back_to_the_last_bit(void **state) {
    (void)state;
    struct compiled compiled = compiled_text("%s", job_text);
    size_t noted = 0;
    char *text = written(compiled.job, NULL, "json");
    json_t *root = json_loads(text, JSON_REJECT_DUPLICATES, NULL);
    const json_t *metal = json_object_get(root, "metal"), *parts = json_object_get(metal, "parts");
    const struct metal *made = compiled.job->metal;
    assert_int_equal(json_array_size(parts), made->parts.count);
    for (size_t i = 0; i < made->parts.count; i++) {
        const struct part *part = made->parts.at[i];
        const json_t *object = json_array_get(parts, i), *panels = json_object_get(object, "panels");
        assert_int_equal(json_array_size(json_object_get(object, "uses")), part->uses.count);
        assert_true(real_in(object, "weight_kg") == part->weight);
        const json_t *notes = json_object_get(object, "notes");
        size_t own = part->notes.count;
        assert_int_equal(json_array_size(notes), own + part->solid->notes.count);
        for (size_t n = 0; n < json_array_size(notes); n++, noted++)
            assert_string_equal(json_string_value(json_array_get(notes, n)),
                                n < own ? part->notes.at[n] : part->solid->notes.at[n - own]);
        assert_int_equal(json_array_size(panels), part->solid->panels.count);
        for (size_t p = 0; p < part->solid->panels.count; p++)
            for (size_t e = 0; e < part->solid->panels.at[p].edges.count; e++) {
                const struct solid_edge *edge = &part->solid->panels.at[p].edges.at[e];
                const json_t *one = json_array_get(json_object_get(json_array_get(panels, p), "edges"), e);
                assert_same_flats(json_object_get(one, "flat_m"), edge->flat, edge->count);
                assert_int_equal(json_array_size(json_object_get(one, "space_m")), edge->count);
            }
        for (size_t b = 0; b < part->blanks.count; b++) {
            const json_t *blank = json_array_get(json_object_get(object, "blanks"), b);
            assert_same_flats(json_object_get(blank, "cut_m"), part->blanks.at[b].cut, part->blanks.at[b].cut_count);
            assert_int_equal(json_array_size(json_object_get(blank, "marks")), part->blanks.at[b].marks.count);
        }
    }
    assert_true(noted > 0);
    assert_true(real_in(json_object_get(metal, "total"), "weight_kg") == made->weight);
    json_decref(root);
    free(text);
    compiled_free(&compiled);
}

/* ---- Drawings ---------------------------------------------------------------------------------------------------- */

struct folder {
    char path[64], paper[96], drawings[96];
};

static struct folder new_folder(const char *name) {
    struct folder folder = {.path = "/tmp/cleat-shop-XXXXXX"};
    assert_non_null(mkdtemp(folder.path));
    snprintf(folder.paper, sizeof folder.paper, "%s/%s.md", folder.path, name);
    snprintf(folder.drawings, sizeof folder.drawings, "%s/%s-figures", folder.path, name);
    return folder;
}

/* How many files there are, all of which must have names that drawings have. */
static size_t drawings_in(const struct folder *folder) {
    size_t count = 0;
    DIR *open = opendir(folder->drawings);
    for (struct dirent *entry = open ? readdir(open) : NULL; entry; entry = readdir(open)) {
        if (entry->d_name[0] == '.' && strspn(entry->d_name, ".") == strlen(entry->d_name))
            continue;
        assert_true(strncmp(entry->d_name, "part-", 5) == 0 || strncmp(entry->d_name, "sheet-", 6) == 0 ||
                    strncmp(entry->d_name, "strip-", 6) == 0);
        count++;
    }
    if (open)
        closedir(open);
    return count;
}

static void remove_folder(const struct folder *folder) {
    struct drawings *drawings = drawings_beside(folder->paper);
    drawings_sweep(drawings);
    drawings_free(drawings);
    rmdir(folder->drawings); /* it is not there when nothing was drawn */
    unlink(folder->paper);
    assert_int_equal(rmdir(folder->path), 0);
}

static void a_link_is_plain_whatever_the_paper_is_called(void **state) {
    (void)state;
    static const struct {
        const char *paper, *link;
    } cases[] = {
        {"shop.md", "shop-figures"},
        {"a/b.c/shop.2.md", "shop.2-figures"},
        {"a.b/shop", "shop-figures"},
        {".md", ".md-figures"},
        {"my shop (2).md", "my%20shop%20%282%29-figures"},
        {"\xC3\xA9t\xC3\xA9.md", "%C3%A9t%C3%A9-figures"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct drawings *drawings = drawings_beside(cases[i].paper);
        assert_string_equal(drawings_link(drawings), cases[i].link);
        drawings_free(drawings);
    }
}

static void no_caption_ends_before_its_end(void **state) {
    struct bench *bench = *state;
    struct folder folder = new_folder("shop");
    struct document document = {.arena = bench->arena, .keep = bench->arena};
    document.drawings = drawings_beside(folder.paper);
    document_drawing(&document, figure_new(bench->arena, "Nothing", NULL), "part-1.svg", "[a] *b* ]]( c");
    struct output *out = output_open_memory();
    markdown_writer.part(out, &document);
    char *text = taken(out);
    assert_string_equal(text, "![\\[a\\] \\*b\\* \\]\\]( c](shop-figures/part-1.svg)\n\n");
    free(text);
    assert_true(drawings_commit(document.drawings));
    drawings_free(document.drawings);
    assert_int_equal(drawings_in(&folder), 1);
    remove_folder(&folder);
}

/* A damper's blade is flat: its pattern shows all of it. */
static bool has_view(const struct part *part) {
    return !strstr(part->title, "Blade");
}

static size_t drawings_of(const struct job *job) {
    size_t wanted = 0;
    for (size_t i = 0; i < job->metal->parts.count; i++)
        wanted += has_view(job->metal->parts.at[i]) + job->metal->parts.at[i]->blanks.count;
    for (size_t i = 0; i < job->metal->nest->groups.count; i++)
        wanted += job->metal->nest->groups.at[i].solution->layouts.count;
    for (size_t i = 0; i < job->metal->strips.count; i++)
        wanted += i == 0 || !strips_alike(&job->metal->strips.at[i - 1], &job->metal->strips.at[i]);
    return wanted;
}

/* Writes the packet of the job, and gives how many drawings belong to it. */
static size_t write_packet(const struct folder *folder, struct compiled compiled) {
    size_t wanted = drawings_of(compiled.job);
    assert_int_equal(cleat_write(compiled.cleat, "shop", "md", folder->paper), CLEAT_OK);
    compiled_free(&compiled);
    return wanted;
}

static void drawings_are_those_of_the_job_and_no_others(void **state) {
    (void)state;
    struct folder folder = new_folder("shop");
    struct compiled base = compiled_text("%s", job_text);
    size_t views = 0;
    for (size_t i = 0; i < base.job->metal->parts.count; i++)
        views += has_view(base.job->metal->parts.at[i]);
    assert_int_equal(views, base.job->metal->parts.count - 1);
    size_t first = write_packet(&folder, base);
    assert_int_equal(drawings_in(&folder), first);
    size_t later =
        write_packet(&folder, compiled_text("job \"Shed\"\n"
                                            "unit fan { blower 400 cfm at 0.30 in.wg; supply 10 x 12; return 14 x 8 }\n"
                                            "run trunk from fan.supply { straight 4 ft }\n"
                                            "outlet desk from trunk { airflow 400 cfm; register 12 x 10 }\n"
                                            "run back from fan.return { straight 4 ft }\n"
                                            "inlet hall from back { grille 24 x 12 }\n"));
    assert_true(later > 0 && later < first);
    assert_int_equal(drawings_in(&folder), later);
    remove_folder(&folder);
}

/* The 27th blank of a part is A2. */
static void a_part_of_many_blanks_is_swept_like_any_other(void **state) {
    struct bench *bench = *state;
    struct folder folder = new_folder("shop");
    struct drawings *drawings = drawings_beside(folder.paper);
    struct figure *figure = figure_new(bench->arena, "Nothing", NULL);
    drawings_write(drawings, "part-3A2.svg", figure);
    drawings_write(drawings, "part-3B2.svg", figure);
    assert_true(drawings_commit(drawings));
    assert_int_equal(drawings_in(&folder), 2);
    drawings_free(drawings);
    drawings = drawings_beside(folder.paper);
    drawings_write(drawings, "part-3B2.svg", figure);
    assert_true(drawings_commit(drawings));
    drawings_sweep(drawings);
    assert_int_equal(drawings_in(&folder), 1);
    drawings_free(drawings);
    remove_folder(&folder);
}

/* Memory that runs out at any moment leaves no half drawing and no file open. */
static void running_out_of_memory_is_said_and_nothing_is_lost(void **state) {
    (void)state;
    struct folder folder = new_folder("shop");
    struct compiled compiled = compiled_text("%s", job_text);
    bool whole = false;
    size_t blocks = 0;
    for (; blocks < 10000 && !whole; blocks += 1 + blocks / 8) {
        size_t left = blocks;
        struct arena_source memory = ration_of(&left);
        struct output *out = output_open_memory();
        struct drawings *drawings = drawings_beside(folder.paper);
        whole = packet_write(packet_for("shop"), compiled.job, &markdown_writer, drawings, &memory, out);
        const char *why;
        assert_null(drawings_failed(drawings, &why));
        if (whole)
            assert_true(drawings_commit(drawings));
        drawings_free(drawings);
        output_abandon(out);
        assert_int_equal(drawings_in(&folder), whole ? drawings_of(compiled.job) : 0);
    }
    assert_true(whole);
    assert_true(blocks > 10);
    compiled_free(&compiled);
    remove_folder(&folder);
}

/* ---- Several patterns on one sheet ------------------------------------------------------------------------------- */

static void sheets_stand_beside_each_other_and_do_not_meet(void **state) {
    struct bench *bench = *state;
    struct sheet *sheets[2];
    double widths = 0;
    for (size_t i = 0; i < 2; i++) {
        struct figure *figure = figure_new(bench->arena, i ? "Second" : "First", NULL);
        struct spot corners[] = {inches(0, 0), inches(9, 0), inches(9, 4), inches(0, 4)};
        figure_polygon(figure, STROKE_CUT, SHADE_NONE, corners, 4);
        sheets[i] = sheet_lay_out(figure, SHEET_FULL_SIZE);
        widths += sheets[i]->width;
    }
    double first = sheets[0]->width;
    struct sheet *both = sheets_beside(bench->arena, sheets, 2);
    assert_sheet_clear(both);
    assert_true(both->width == widths);
    const struct sheet_letters *second = letters_find(both, "Second");
    assert_non_null(second);
    assert_true(second->box.centre.x - second->box.half_width >= first);
    assert_non_null(letters_find(both, "First"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_cut_list_has_every_blank_of_the_job),
        cmocka_unit_test(a_field_of_a_csv_may_hold_anything),
        cmocka_unit_test(every_part_is_named_and_every_joint_follows_the_part_before_it),
        cmocka_unit_test(a_job_with_nothing_to_make_says_so),
        cmocka_unit_test(every_vertex_comes_back_to_the_last_bit),
        cmocka_unit_test(a_link_is_plain_whatever_the_paper_is_called),
        cmocka_unit_test_setup_teardown(no_caption_ends_before_its_end, bench_setup, bench_teardown),
        cmocka_unit_test(drawings_are_those_of_the_job_and_no_others),
        cmocka_unit_test_setup_teardown(a_part_of_many_blanks_is_swept_like_any_other, bench_setup, bench_teardown),
        cmocka_unit_test(running_out_of_memory_is_said_and_nothing_is_lost),
        cmocka_unit_test_setup_teardown(sheets_stand_beside_each_other_and_do_not_meet, bench_setup, bench_teardown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

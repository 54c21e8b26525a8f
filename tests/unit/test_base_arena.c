/* The arena and the lists in it. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

#include "base/arena.h"
#include "base/list.h"

/* A source of memory that counts, and gives out only so many blocks. */
struct counted {
    size_t left, taken, given;
};

static void *take(void *context, size_t size) {
    struct counted *counted = context;
    if (counted->left == 0)
        return NULL;
    counted->left--;
    counted->taken++;
    void *block = malloc(size);
    if (block)
        memset(block, 0xA5, size); /* so that memory which was not zeroed shows */
    return block;
}

static void give(void *context, void *block) {
    struct counted *counted = context;
    counted->given++;
    free(block);
}

static struct arena_source source_of_blocks(struct counted *counted) {
    return (struct arena_source){.take = take, .give = give, .context = counted};
}

static void pieces_are_zeroed_aligned_and_apart(void **state) {
    (void)state;
    struct counted counted = {.left = SIZE_MAX};
    struct arena_source source = source_of_blocks(&counted);
    struct arena *arena = arena_new(&source);
    unsigned char *pieces[200];
    for (size_t i = 0; i < 200; i++) {
        size_t size = i * 37; /* some larger than a fresh block has left */
        pieces[i] = arena_take(arena, size);
        assert_int_equal((uintptr_t)pieces[i] % _Alignof(double), 0);
        for (size_t j = 0; j < size; j++)
            assert_int_equal(pieces[i][j], 0);
        memset(pieces[i], (int)i, size);
    }
    for (size_t i = 0; i < 200; i++)
        for (size_t j = 0; j < i * 37; j++)
            assert_int_equal(pieces[i][j], i);
    assert_true(arena_used(arena) >= 37 * 199 * 200 / 2);
    arena_free(arena);
}

static void every_block_goes_back_once(void **state) {
    (void)state;
    struct counted counted = {.left = SIZE_MAX};
    struct arena_source source = source_of_blocks(&counted);
    struct arena *arena = arena_new(&source);
    for (size_t size = 1; size < 8 * 1024 * 1024; size *= 3)
        arena_take(arena, size);
    assert_true(counted.taken > 3);
    arena_free(arena);
    assert_int_equal(counted.given, counted.taken);
    arena_free(NULL);
}

static void no_memory_at_all_gives_no_arena(void **state) {
    (void)state;
    struct counted counted = {.left = 0};
    struct arena_source source = source_of_blocks(&counted);
    assert_null(arena_new(&source));
}

/* Takes `sizes` in turn from an arena that has `blocks` blocks: true when all were had. */
static bool all_had(size_t blocks, const size_t *sizes, size_t count) {
    struct counted counted = {.left = blocks};
    struct arena_source source = source_of_blocks(&counted);
    struct arena *arena = arena_new(&source);
    if (!arena)
        return false;
    jmp_buf place;
    volatile bool had = false;
    if (setjmp(place) == 0) {
        arena_on_failure(arena, &place);
        for (size_t i = 0; i < count; i++)
            memset(arena_take(arena, sizes[i]), 1, sizes[i]);
        had = true;
    }
    arena_free(arena);
    assert_int_equal(counted.given, counted.taken);
    return had;
}

static void memory_that_runs_out_jumps_to_the_place(void **state) {
    (void)state;
    const size_t sizes[] = {10, 100000, 20, 300000, 16000, 16000, 16000};
    const size_t count = sizeof sizes / sizeof *sizes;
    assert_false(all_had(0, sizes, count));
    assert_false(all_had(1, sizes, count));
    assert_false(all_had(2, sizes, count)); /* the large one gets no block */
    assert_true(all_had(20, sizes, count));
}

static void a_size_that_no_machine_has_fails_the_same_way(void **state) {
    (void)state;
    const size_t minus_one[] = {SIZE_MAX}, half[] = {SIZE_MAX / 2};
    assert_false(all_had(9, minus_one, 1));
    assert_false(all_had(9, half, 1));
}

static void resizing_keeps_the_old_bytes_and_zeroes_the_new(void **state) {
    (void)state;
    struct counted counted = {.left = SIZE_MAX};
    struct arena_source source = source_of_blocks(&counted);
    struct arena *arena = arena_new(&source);
    size_t size = 5;
    char *piece = arena_resize(arena, NULL, 0, size);
    memcpy(piece, "duct", 5);
    for (int round = 0; round < 14; round++) {
        if (round % 3 == 2)
            arena_take(arena, 1); /* now it is not the last piece */
        piece = arena_resize(arena, piece, size, size * 2 + 1);
        assert_string_equal(piece, "duct");
        for (size_t i = 5; i < size * 2 + 1; i++)
            assert_int_equal(piece[i], 0);
        size = size * 2 + 1;
    }
    assert_ptr_equal(arena_resize(arena, piece, size, 3), piece);
    arena_free(arena);
}

static void the_last_piece_grows_where_it_is(void **state) {
    (void)state;
    struct arena *arena = arena_new(NULL);
    char *first = arena_take(arena, 40);
    assert_ptr_equal(arena_resize(arena, first, 40, 80), first);
    char *behind = arena_take(arena, 8);
    assert_true(behind >= first + 80);
    assert_ptr_not_equal(arena_resize(arena, first, 80, 160), first);
    arena_free(arena);
}

static void formatted_text_may_be_longer_than_any_buffer(void **state) {
    (void)state;
    struct arena *arena = arena_new(NULL);
    assert_string_equal(arena_format(arena, "%d %s", 140, "cfm"), "140 cfm");
    for (int width = 250; width < 260; width++) {
        char *text = arena_format(arena, "%*d", width, 7);
        assert_int_equal(strlen(text), width);
        assert_int_equal(text[width - 1], '7');
        assert_int_equal(text[0], ' ');
    }
    assert_int_equal(strlen(arena_format(arena, "%100000d", 1)), 100000);
    assert_memory_equal(arena_copy(arena, "a\0b", 3), "a\0b", 4);
    assert_string_equal(arena_copy(arena, NULL, 0), "");
    arena_free(arena);
}

static void a_list_holds_what_was_added_in_order(void **state) {
    (void)state;
    struct arena *arena = arena_new(NULL);
    LIST(int *) numbers = {0};
    LIST(struct { char name[20]; }) names = {0};
    int values[1000];
    for (int i = 0; i < 1000; i++) {
        values[i] = i;
        *list_add(arena, &numbers) = &values[i];
        assert_int_equal(list_add(arena, &names)->name[19], 0);
        memset(names.at[names.count - 1].name, i % 100 + 1, 20);
    }
    assert_int_equal(numbers.count, 1000);
    for (int i = 0; i < 1000; i++) {
        assert_int_equal(*numbers.at[i], i);
        assert_int_equal(names.at[i].name[19], i % 100 + 1);
    }
    assert_true(numbers.room >= 1000 && numbers.room < 2048);
    arena_free(arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pieces_are_zeroed_aligned_and_apart),
        cmocka_unit_test(every_block_goes_back_once),
        cmocka_unit_test(no_memory_at_all_gives_no_arena),
        cmocka_unit_test(memory_that_runs_out_jumps_to_the_place),
        cmocka_unit_test(a_size_that_no_machine_has_fails_the_same_way),
        cmocka_unit_test(resizing_keeps_the_old_bytes_and_zeroes_the_new),
        cmocka_unit_test(the_last_piece_grows_where_it_is),
        cmocka_unit_test(formatted_text_may_be_longer_than_any_buffer),
        cmocka_unit_test(a_list_holds_what_was_added_in_order),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

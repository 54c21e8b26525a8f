/* The grammar of a job.  It knows statements, values and blocks, and no trade: what `elbow` or `outlet` takes is said
 * by the forms (src/lang/form.h).  Actions only build the tree; syntax.c has the hands for it. */

%code requires {
#include "lang/scan.h"
}

%code provides {
/* The names that the scanner's header uses. */
#define YYSTYPE JOB_STYPE
#define YYLTYPE JOB_LTYPE
}

%define api.pure full
%define api.prefix {job_}
%define api.location.type {struct span}
%define parse.error custom
%define parse.lac full
%define lr.default-reduction consistent
%expect 0

%param {void *scanner}
%parse-param {struct scan *scan}

%union {
    const char *text;
    struct quantity quantity;
    const struct measure *measure;
    struct value value;
    struct statement *statement;
    struct statements *statements;
}

%code {
#include "grammar/scanner.h"

#define YYLLOC_DEFAULT(whole, parts, count) (whole) = scan_join(scan, (parts) + 1, count)

/* Blocks nest at most NESTING_LIMIT deep and every list grows to the left: the parser needs no more room than this. */
#define YYINITDEPTH 1000
#define YYMAXDEPTH YYINITDEPTH

static void job_error(const struct span *at, void *scanner, struct scan *scan, const char *message);
}

%token <text>     WORD
%token <text>     STRING
%token <text>     DATE
%token <quantity> NUMBER
%token <measure>  UNIT
%token            TIMES "x"
%token            COMMA ","
%token            END           /* a newline or ; */
%token            OPEN "{"
%token            CLOSE "}"
%token            UNCLOSED      /* where a } is missing, which has been diagnosed */

%type <statements> file body lines
%type <statement>  line head blocked
%type <value>      value
%type <quantity>   quantity

%%

/*  # a job is lines, and statements with a block
 *  use "standard.shop"
 *  run plenum from AHU.supply { straight 20 in }
 */
file:
    body                                { syntax_finish(scan, $1); }
;

/*  straight 16 ft; elbow 90 left           the last one needs no end of line before the }  */
body:
    lines                               { $$ = $1; }
|   lines line                          { $$ = syntax_add(scan, $1, $2); }
;

lines:
    %empty                              { $$ = syntax_new(scan); }
|   lines END                           { $$ = $1; scan->faulty = false; }
|   lines line END                      { $$ = syntax_add(scan, $1, $2); yyerrok; }
|   lines blocked                       { $$ = syntax_add(scan, $1, $2); }
;

/*  transition over 18 in, flat top  */
line:
    head                                { $$ = $1; }
;

/*  run kilnside from plenum.left {  ...  }  */
blocked:
    head "{" body "}"                    { $$ = syntax_block(scan, $1, $3, @2, @4); }
|   head "{" body UNCLOSED              { $$ = syntax_block(scan, $1, $3, @2, @4); }
;

/*  A fault costs its own statement, up to the end of the line or the braces.  */
head:
    WORD values                         { $$ = syntax_statement(scan, $1, @1); }
|   WORD values fault                   { $$ = syntax_statement(scan, $1, @1); }
|   fault                               { $$ = syntax_unreadable(scan, @1); }
;

fault:
    error
|   fault passed
;

passed:
    WORD | STRING | DATE | NUMBER | UNIT | "x" | ","
;

/*  over 18 in, flat top                    values gather in the scan until the head is whole  */
values:
    %empty
|   values value                        { syntax_value(scan, &$2); }
;

value:
    WORD                                { $$ = (struct value){.kind = VALUE_WORD, .at = @1, .text = $1}; }
|   STRING                              { $$ = (struct value){.kind = VALUE_STRING, .at = @1, .text = $1}; }
|   DATE                                { $$ = (struct value){.kind = VALUE_DATE, .at = @1, .text = $1}; }
|   ","                                 { $$ = (struct value){.kind = VALUE_COMMA, .at = @1}; }
|   quantity                            { $$ = syntax_size(scan, @$, 1, (struct quantity[]){$1}); }
|   quantity "x" quantity               { $$ = syntax_size(scan, @$, 2, (struct quantity[]){$1, $3}); }
|   quantity "x" quantity "x" quantity
                                        { $$ = syntax_size(scan, @$, 3, (struct quantity[]){$1, $3, $5}); }
;

/*  14 ft    3-1/2 in    90    96 %    R-8  */
quantity:
    NUMBER                              { $$ = $1; }
|   NUMBER UNIT                         { $$ = (struct quantity){.number = $1.number, .measure = $2}; }
;

%%

static int yyreport_syntax_error(const yypcontext_t *context, void *scanner, struct scan *scan) {
    (void)scanner;
    bool wants_number = yypcontext_expected_tokens(context, NULL, 0) == 1; /* nothing else may follow an x */
    scan_misplaced(scan, *yypcontext_location(context), wants_number);
    return 0;
}

/* Only for the parser's own limits, which NESTING_LIMIT keeps out of reach. */
static void job_error(const struct span *at, void *scanner, struct scan *scan, const char *message) {
    (void)scanner;
    diagnose(scan->diagnostics, DIAGNOSTIC_ERROR, "syntax", *at, "the text cannot be read further: %s", message);
}

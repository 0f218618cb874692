/* start.c - what the page needs to begin with, and the questions besides the case. */
#include "internal.h"

#include <string.h>

static void add_species(bw_text *out, const bw_species_table *table)
{
    bw_text_add(out, "\"species\": [");
    for (size_t i = 0; i < table->count; i++) {
        bw_text_add(out, i > 0 ? ", " : "");
        bw_json_string(out, table->items[i].common);
    }
    bw_text_add(out, "],\n");
}

static void add_string(bw_text *out, const char *key, const char *text)
{
    bw_text_print(out, "\"%s\": ", key);
    if (text == NULL) {
        bw_text_add(out, "null");
    } else {
        bw_json_string(out, text);
    }
    bw_text_add(out, ",\n");
}

/* Choices of a case that the program keeps in tables: word and what a person reads. */
static void add_choice(bw_text *out, bool first, const char *word, const char *label)
{
    bw_text_add(out, first ? "[" : ", [");
    bw_json_string(out, word);
    bw_text_add(out, ", ");
    bw_json_string(out, label);
    bw_text_add(out, "]");
}

static void add_words(bw_text *out)
{
    bw_text_add(out, "\"words\": {\"basis\": [");
    for (size_t i = 0; bw_basis_at(i) != NULL; i++) {
        add_choice(out, i == 0, bw_basis_at(i)->id, bw_basis_at(i)->title);
    }
    bw_text_add(out, "],\n\"use\": [");
    const bw_people_use *uses = bw_basis_at(0)->uses; /* the same names in every basis */
    for (size_t i = 0; uses[i].name != NULL; i++) {
        add_choice(out, i == 0, uses[i].name, uses[i].name);
    }
    bw_text_add(out, "],\n\"strength_class\": [");
    for (size_t i = 0; bw_strength_class_at(i) != NULL; i++) {
        const char *name = bw_strength_class_at(i)->name;
        add_choice(out, i == 0, name, name);
    }
    bw_text_add(out, "]},\n");
}

void bwi_answer_start(bwi_exchange *x, bw_page_response *out)
{
    (void)out;
    bw_text_add(&x->out, "{");
    add_string(&x->out, "version", bw_version);
    add_string(&x->out, "text", x->page->case_text);
    add_string(&x->out, "name", x->page->case_name);
    add_species(&x->out, x->page->species);
    add_words(&x->out);
    bw_text_add(&x->out, "\"cautions\": [");
    for (size_t i = 0; bw_cautions[i] != NULL; i++) {
        bw_text_add(&x->out, i > 0 ? ",\n" : "");
        bw_json_string(&x->out, bw_cautions[i]);
    }
    bw_text_add(&x->out, "],\n\"questions\": [");
    for (size_t i = 0; i < x->page->n_questions; i++) {
        bw_text_add(&x->out, i > 0 ? ", " : "");
        bw_json_string(&x->out, x->page->questions[i].name);
    }
    bw_text_add(&x->out, "]}\n");
}

void bwi_answer_question(bwi_exchange *x, const char *name, bw_page_response *out)
{
    const bw_page *page = x->page;
    for (size_t i = 0; i < page->n_questions; i++) {
        if (strcmp(page->questions[i].name, name) != 0) {
            continue;
        }
        bw_text text = bw_text_new(x->arena);
        bw_diags d = bw_diags_new(x->arena, NULL);
        const bw_status status = page->questions[i].answer(
            x->arena, page->questions[i].context, x->request, &text, &d);
        const char *words = bw_text_string(&text);
        bw_text_add(&x->out, "{");
        bwi_write_faults(&x->out, status, &d);
        bw_text_add(&x->out, "\"text\": ");
        bw_json_string(&x->out, words != NULL ? words : "");
        x->out.failed = x->out.failed || words == NULL;
        bw_text_add(&x->out, "}\n");
        return;
    }
    bwi_refuse(x, 404, "there is no such question", out);
}

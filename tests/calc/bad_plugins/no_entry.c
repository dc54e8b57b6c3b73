/* A library that loads well and is no plugin. */
int fettle_no_entry_answer(void);
int fettle_no_entry_answer(void) { return 42; }

/* unit.h: what every unit test includes: cmocka and what it asks to be included first. */
#ifndef SPINNEY_TESTS_UNIT_H
#define SPINNEY_TESTS_UNIT_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#endif

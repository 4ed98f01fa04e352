"""What can go wrong with the records, each counted: of acknowledged entries, none is lost.

fault                                         a book           a desk, a command or the floor
terminals killed at random moments            test_kill        test_kill_enter
a day's or the house's file cut off anywhere  test_damage      test_damaged_desk
a bit flipped anywhere                        test_damage      test_damaged_desk
a notice of damage that nobody sees                            test_damage_notice
a full disk: while writing, starting a day,
closing one                                   test_full_disk   test_full_disk_desk
a sync that fails                             (test_refusals)  test_failing_sync
a read-only folder                            (test_refusals)  test_read_only
a latch held by a stopped or dead process     test_stopped     test_held_latch
a clock set back; midnight; the night shift                    test_clock
a newer program's book; an older one's        test_damage      test_other_versions
a terminal that stalls, then drops                             test_dropped_terminal
a copy put back and cut short                                  test_restore
a copy tampered with, or not confirmed                         test_tampered_copies
a folder moved and copied back; a line cut
after a brace; files left open                test_moved_and_cut
a day closed too soon; the same line later                     test_planned_by_nobody

Those in brackets are in tests/records. The long forms, marked `slow`, run with `--long`.
"""

package tickover.cli;

import tickover.store.Log;

/** Brings the fleet's overview up to date. */
final class Fleets {
    private Fleets() {}

    /** Makes missing standings anew, which takes a while after an import of many visits. */
    static void refresh(Log log, Terminal terminal) {
        try {
            log.history()
                    .refresh(
                            (done, total) ->
                                    terminal.progress("judging vehicle " + done + " of " + total));
        } finally {
            terminal.progressDone();
        }
    }
}

package tickover.cli;

import java.util.UUID;
import tickover.store.Log;

/** Takes a note or a repair mark back. */
final class Withdrawal {
    private Withdrawal() {}

    static int of(Log log, UUID id, String what, Terminal terminal) {
        if (!log.history().withdraw(id)) {
            terminal.note("there is no " + what + " " + id + " that still holds.");
            return ExitCode.NO;
        }
        terminal.line("Taken back: " + id + ".");
        return ExitCode.DONE;
    }
}

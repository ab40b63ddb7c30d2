package tickover;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import tickover.cli.TickoverCommand;
import tickover.console.ConsoleWindow;
import tickover.console.model.ConsoleOptions;

/** Starts the program. */
public final class Main {
    private Main() {}

    /**
     * Runs one command and ends the process with its exit code. Both streams are UTF-8 on every
     * platform: a JSON document must not depend on the terminal's character set.
     *
     * @param args the command line
     */
    public static void main(String[] args) {
        PrintStream out = utf8(FileDescriptor.out);
        PrintStream err = utf8(FileDescriptor.err);
        int code =
                TickoverCommand.run(
                        args,
                        out,
                        err,
                        wish ->
                                ConsoleWindow.open(
                                        new ConsoleOptions(
                                                wish.log(),
                                                wish.simulated(),
                                                wish.replayed(),
                                                wish.pace(),
                                                wish.port())));
        out.flush();
        err.flush();
        System.exit(code);
    }

    private static PrintStream utf8(FileDescriptor descriptor) {
        return new PrintStream(new FileOutputStream(descriptor), false, StandardCharsets.UTF_8);
    }
}

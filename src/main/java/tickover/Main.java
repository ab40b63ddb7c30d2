package tickover;

/** Starts the program. */
public final class Main {
    private Main() {}

    /**
     * Runs one command and ends the process with its exit code.
     *
     * @param args the command line
     */
    public static void main(String[] args) {
        System.out.println("tickover " + args.length);
    }
}

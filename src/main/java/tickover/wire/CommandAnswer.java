package tickover.wire;

/**
 * Answer to a command.
 *
 * @param command the frame type that is answered
 * @param result 0 done, 1 not known, 2 argument cannot be met, 3 not now
 */
public record CommandAnswer(int command, int result) {}

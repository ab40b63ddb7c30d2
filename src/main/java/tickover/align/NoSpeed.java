package tickover.align;

/** No speed source: speed has to be found from the vibration. */
public record NoSpeed() implements SpeedSource {
    @Override
    public Kind kind() {
        return Kind.NONE;
    }
}

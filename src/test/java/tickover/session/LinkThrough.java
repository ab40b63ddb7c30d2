package tickover.session;

import tickover.link.ByteLink;

/** A link that passes all on; tests change what they want to see or disturb. */
class LinkThrough implements ByteLink {
    private final ByteLink to;

    LinkThrough(ByteLink to) {
        this.to = to;
    }

    @Override
    public String name() {
        return to.name();
    }

    @Override
    public int read(byte[] into) {
        return to.read(into);
    }

    @Override
    public void write(byte[] bytes) {
        to.write(bytes);
    }

    @Override
    public void close() {
        to.close();
    }
}

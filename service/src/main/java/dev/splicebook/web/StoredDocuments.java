package dev.splicebook.web;

/** Reads documents as they were stored, maybe under rules that have become stricter since. */
public final class StoredDocuments {

    private StoredDocuments() {}

    /**
     * A stored document as a value.
     *
     * @param what is read, as the subject of a sentence, like {@code revision 2 of device AMP-4}
     * @throws ProblemException 422 with its faults, if it is not one that would be taken today
     */
    public static <T> T read(String document, Class<T> type, String what) {
        try {
            return StrictReader.read(document, type);
        } catch (ProblemException refused) {
            throw refusal(refused, what + " was taken when less was checked, and its document is refused today:");
        }
    }

    /**
     * What to answer where a stored document, and not the body that was sent, is what is refused.
     *
     * @param why how the detail begins; the first fault follows
     * @return 422 with the faults of a 400, any other problem as it is
     */
    public static ProblemException refusal(ProblemException refused, String why) {
        if (refused.type() != ProblemType.BAD_BODY) {
            return refused;
        }
        String first = refused.errors().stream()
                .findFirst()
                .map(fault -> " at " + fault.pointer() + ", " + fault.detail())
                .orElse("");
        String further = refused.errors().size() > 1 ? ", and more that errors names" : "";
        return Problems.unprocessable(why + first + further, refused.errors());
    }
}

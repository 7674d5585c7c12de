package dev.splicebook.web;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.core.MethodParameter;
import org.springframework.web.bind.support.WebDataBinderFactory;
import org.springframework.web.context.request.NativeWebRequest;
import org.springframework.web.method.support.HandlerMethodArgumentResolver;
import org.springframework.web.method.support.ModelAndViewContainer;

/** Reads {@code ?cursor=&limit=} for controllers that take a {@link PageQuery}. */
final class PageQueryResolver implements HandlerMethodArgumentResolver {

    @Override
    public boolean supportsParameter(MethodParameter parameter) {
        return parameter.getParameterType() == PageQuery.class;
    }

    @Override
    public Object resolveArgument(
            MethodParameter parameter,
            @Nullable ModelAndViewContainer container,
            NativeWebRequest request,
            @Nullable WebDataBinderFactory binders) {
        String cursor = request.getParameter("cursor");
        return new PageQuery(limit(request.getParameter("limit")), cursor == null ? List.of() : Cursors.decode(cursor));
    }

    private static int limit(@Nullable String sent) {
        if (sent == null) {
            return PageQuery.DEFAULT;
        }
        if (sent.matches("[0-9]{1,9}")) {
            int limit = Integer.parseInt(sent);
            if (limit >= PageQuery.LEAST && limit <= PageQuery.MOST) {
                return limit;
            }
        }
        throw Problems.badParameter(
                "limit",
                "out-of-range",
                "limit is \"" + Words.shortened(sent) + "\", which is not a whole number from " + PageQuery.LEAST
                        + " to " + PageQuery.MOST);
    }
}

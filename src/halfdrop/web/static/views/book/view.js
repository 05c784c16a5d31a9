import { html } from "../../lib/html.js";
export default { id: "book", title: "Book", needs: "job", render: () => html`` };
